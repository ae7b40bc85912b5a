/** Small pieces of SVG text: numbers rounded so that two machines write the same file, text made safe. */

/** Type of the room and type of the people; both have stand-ins that every machine has. */
export const SANS = 'Archivo, Arial, Helvetica, sans-serif';
export const SERIF = 'Newsreader, Georgia, serif';

/** At most two decimals, no trailing zeros. */
export function n2(value: number): string {
  const rounded = Math.round(value * 100) / 100;
  return Object.is(rounded, -0) ? '0' : String(rounded);
}

/** Text that may stand between tags and in attributes. */
export function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}

export type Attributes = Record<string, string | number>;

/** One element; numbers are rounded. */
export function tag(name: string, attributes: Attributes, content = ''): string {
  const written = Object.entries(attributes)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? n2(value) : escaped(value)}"`)
    .join('');
  return content === '' ? `<${name}${written}/>` : `<${name}${written}>${content}</${name}>`;
}

/** One line of text, its base line at y. */
export function text(x: number, y: number, content: string, attributes: Attributes = {}): string {
  return tag('text', { x, y, ...attributes }, escaped(content));
}

/** A group of lines, one element a line, so that a change can be read in a comparison of files. */
export function group(attributes: Attributes, body: readonly string[]): string {
  return body.length === 0 ? '' : tag('g', attributes, `\n${body.join('\n')}\n`);
}

/** A stroked path without filling. */
export function line(d: string, stroke: string, width: number, more: Attributes = {}): string {
  return tag('path', { d, fill: 'none', stroke, 'stroke-width': width, ...more });
}

/** A circle around x, y. */
export function circle(x: number, y: number, r: number, attributes: Attributes): string {
  return tag('circle', { cx: x, cy: y, r, ...attributes });
}

/** Path data of a closed outline through the points. */
export function outline(points: readonly (readonly [number, number])[]): string {
  return `M${points.map(([x, y]) => `${n2(x)} ${n2(y)}`).join('L')}Z`;
}

/** Path data of an open line through the points. */
export function course(points: readonly (readonly [number, number])[]): string {
  return `M${points.map(([x, y]) => `${n2(x)} ${n2(y)}`).join('L')}`;
}

/** White edge that keeps text readable where it crosses lines. */
export const HALO: Attributes = {
  stroke: '#FFFFFF',
  'stroke-width': 5,
  'paint-order': 'stroke',
  'stroke-linejoin': 'round',
};

/** Mean width of a character, share of the type size. Assumed: English text in either face; wider letters would run over. */
const CHARACTER_EM = 0.48;

export function textWidth(content: string, sizePx: number): number {
  return content.length * CHARACTER_EM * sizePx;
}

/** Lines that fit a width, broken between words but never before a unit. */
export function wrapped(content: string, widthPx: number, sizePx: number): string[] {
  const lines: string[] = [];
  for (const word of content.split(/ (?!lx\b)/)) {
    const last = lines.at(-1);
    if (last !== undefined && textWidth(`${last} ${word}`, sizePx) <= widthPx)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

export interface Sheet {
  widthPx: number;
  heightPx: number;
  /** Printed width, mm; absent: as many px as drawn. */
  printMm?: number;
  ink: string;
}

/** A whole drawing with its title and description for those who hear it. */
export function drawing(sheet: Sheet, title: string, description: string, body: readonly string[]): string {
  const { widthPx, heightPx, printMm, ink } = sheet;
  const size =
    printMm === undefined
      ? `width="${n2(widthPx)}" height="${n2(heightPx)}"`
      : `width="${n2(printMm)}mm" height="${n2((printMm * heightPx) / widthPx)}mm"`;
  const head = [
    `<svg xmlns="http://www.w3.org/2000/svg" ${size} viewBox="0 0 ${n2(widthPx)} ${n2(heightPx)}" role="img" aria-labelledby="title desc" font-family="${SANS}" font-size="17" fill="${ink}">`,
    tag('title', { id: 'title' }, escaped(title)),
    tag('desc', { id: 'desc' }, escaped(description)),
    tag('rect', { width: widthPx, height: heightPx, fill: '#FFFFFF' }),
  ];
  return `${[...head, ...body.filter((part) => part !== ''), '</svg>'].join('\n')}\n`;
}
