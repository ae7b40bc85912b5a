/** What the last row can read: sizes of type and lines as they stand on the screen, and contrast with what lies behind. */
import type { Page } from '@playwright/test';

export interface Measured {
  /** Type smaller than this, px, with its text. */
  small: string[];
  /** Text under this contrast. */
  faint: string[];
  /** Strokes thinner than this, px, by their class. */
  thin: string[];
}

/** Hairlines that carry no meaning of their own. Source: look: "rule: hairlines only, carries no meaning". */
const HAIRLINES = ['grid', 'base', 'limitText'];

/** Measures everything that is seen inside `root`. */
export function measured(page: Page, root: string, least: { typePx: number; linePx: number; contrast: number }) {
  return page.evaluate(
    ({ root, least, hairlines }): Measured => {
      const out: Measured = { small: [], faint: [], thin: [] };
      const shown = (e: Element): boolean => {
        const box = e.getBoundingClientRect();
        const style = getComputedStyle(e);
        return box.width > 1 && box.height > 1 && style.visibility !== 'hidden' && !e.closest('.visuallyHidden');
      };
      const scaleOf = (e: Element): number => {
        if (!(e instanceof SVGGraphicsElement))
          return (e as HTMLElement & { currentCSSZoom?: number }).currentCSSZoom ?? 1;
        const m = e.getScreenCTM();
        return m ? Math.hypot(m.a, m.b) : 1;
      };
      const rgb = (text: string): number[] => (text.match(/[\d.]+/g) ?? []).map(Number);
      const light = (c: number[]): number => {
        const [r, g, b] = c
          .slice(0, 3)
          .map((v) => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4));
        return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
      };
      const ratio = (a: number[], b: number[]): number => {
        const [x, y] = [light(a), light(b)].sort((p, q) => q - p);
        return (x! + 0.05) / (y! + 0.05);
      };
      /** Colour behind an element: its own ground, or that of the first ancestor that has one. */
      const behind = (e: Element): number[] => {
        for (let at: Element | null = e; at; at = at.parentElement) {
          const c = rgb(getComputedStyle(at).backgroundColor);
          if (c.length >= 3 && (c[3] ?? 1) === 1) return c;
        }
        return [255, 255, 255];
      };
      /** Drawings have many grounds: the shape drawn before it that holds its middle, or the strip's darkest ground. */
      const drawnBehind = (e: SVGElement): number[] => {
        const box = e.getBoundingClientRect();
        const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
        let found: number[] | null = null;
        for (const other of e.ownerSVGElement!.querySelectorAll('rect, path, circle, ellipse')) {
          if (!(e.compareDocumentPosition(other) & Node.DOCUMENT_POSITION_PRECEDING)) continue;
          const fill = getComputedStyle(other).fill;
          const b = other.getBoundingClientRect();
          if (!/^rgb\(/.test(fill) || x < b.left || x > b.right || y < b.top || y > b.bottom) continue;
          found = rgb(fill);
        }
        return found ?? behind(e);
      };
      for (const e of document.querySelectorAll(`${root} *`)) {
        const words = [...e.childNodes].filter((n) => n.nodeType === Node.TEXT_NODE && n.textContent!.trim() !== '');
        const style = getComputedStyle(e);
        if (words.length > 0 && shown(e) && !(e instanceof HTMLOptionElement)) {
          const text = e.textContent!.trim().slice(0, 40);
          const px = Number.parseFloat(style.fontSize) * scaleOf(e);
          if (px < least.typePx) out.small.push(`${text}: ${px.toFixed(1)} px`);
          const drawing = e instanceof SVGElement;
          const contrast = ratio(rgb(drawing ? style.fill : style.color), drawing ? drawnBehind(e) : behind(e));
          if (contrast < least.contrast) out.faint.push(`${text}: ${contrast.toFixed(2)}`);
        }
        if (!(e instanceof SVGGeometryElement) || style.stroke === 'none' || !e.closest('svg')) continue;
        const name = e.getAttribute('class') ?? '';
        const px = Number.parseFloat(style.strokeWidth) * scaleOf(e);
        if (e.getBoundingClientRect().width + e.getBoundingClientRect().height < 1) continue;
        if (px < least.linePx && !hairlines.some((h) => name.includes(`_${h}_`)))
          out.thin.push(`${name || e.outerHTML.slice(0, 80)}: ${px.toFixed(2)} px`);
      }
      return { small: [...new Set(out.small)], faint: [...new Set(out.faint)], thin: [...new Set(out.thin)] };
    },
    { root, least, hairlines: HAIRLINES },
  );
}
