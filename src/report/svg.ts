/** Small pieces of SVG text: numbers rounded so that two machines write the same file, text made safe. */

export const INK = '#1B2530';
export const CHANNEL = { innerRow: '#3A2FA0', windowRow: '#005F66', airContact: '#7D3A00' } as const;
export const SUN = '#FFE38F';

/** At most two decimals, no trailing zeros. */
export function n2(value: number): string {
  const rounded = Math.round(value * 100) / 100;
  return Object.is(rounded, -0) ? '0' : String(rounded);
}

export function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}

type Attributes = Record<string, string | number>;

/** One element; numbers are rounded. */
export function tag(name: string, attributes: Attributes, content = ''): string {
  const written = Object.entries(attributes)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? n2(value) : escaped(value)}"`)
    .join('');
  return content === '' ? `<${name}${written}/>` : `<${name}${written}>${content}</${name}>`;
}

export function text(x: number, y: number, content: string, attributes: Attributes = {}): string {
  return tag('text', { x, y, ...attributes }, escaped(content));
}

/** A closed outline through the points. */
export function outline(points: readonly (readonly [number, number])[]): string {
  return `M${points.map(([x, y]) => `${n2(x)} ${n2(y)}`).join('L')}Z`;
}

/** A whole drawing with its title and description for those who hear it. */
export function drawing(widthPx: number, heightPx: number, title: string, description: string, body: string[]): string {
  const head = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}" viewBox="0 0 ${widthPx} ${heightPx}" role="img" font-family="Archivo, Arial, sans-serif" font-size="15" fill="${INK}">`,
    tag('title', {}, escaped(title)),
    tag('desc', {}, escaped(description)),
    tag('rect', { width: widthPx, height: heightPx, fill: '#FFFFFF' }),
  ];
  return `${[...head, ...body, '</svg>'].join('\n')}\n`;
}
