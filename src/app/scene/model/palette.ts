/** Linear reflectances of the model's materials, and the few flat colours. Values: `look`, chosen for the picture. */

export type Rgb = readonly [r: number, g: number, b: number];

/** Linear reflectance per channel. Assumed: hues are decoration; the luminance is replaced by the room's own
 *  reflectance wherever the scenario states one (`tinted`), so brightness stays the calculated one. */
export const MATERIAL = {
  wall: [0.8, 0.795, 0.77],
  floor: [0.55, 0.52, 0.475],
  deskTop: [0.7, 0.585, 0.44],
  shelf: [0.66, 0.55, 0.42],
  chair: [0.235, 0.3, 0.315],
  leg: [0.22, 0.22, 0.225],
  frame: [0.5, 0.5, 0.5],
  baseboard: [0.735, 0.7, 0.645],
  plaster: [0.6, 0.6, 0.6],
  door: [0.62, 0.47, 0.3],
  screenDark: [0.045, 0.05, 0.06],
  panel: [0.3, 0.4, 0.4],
  keyboard: [0.6, 0.6, 0.6],
  paper: [0.82, 0.82, 0.8],
  leaf: [0.07, 0.2, 0.05],
  pot: [0.45, 0.42, 0.38],
  board: [0.82, 0.82, 0.8],
  grille: [0.16, 0.15, 0.14],
  lampOff: [0.42, 0.43, 0.44],
  detector: [0.85, 0.85, 0.85],
  figure: [0.13, 0.19, 0.3],
  thing: [0.34, 0.31, 0.27],
} as const satisfies Record<string, Rgb>;

/** Book spines: the only small colours of the room. */
export const SPINES: readonly Rgb[] = [
  [0.5, 0.16, 0.1],
  [0.1, 0.2, 0.32],
  [0.62, 0.5, 0.24],
  [0.12, 0.26, 0.2],
  [0.7, 0.67, 0.6],
  [0.3, 0.12, 0.16],
  [0.16, 0.32, 0.36],
];

export type Theme = 'day' | 'night' | 'opening';

/** Flat cut face of the walls, sRGB. */
export const CUT_FACE: Record<Theme, string> = { day: '#343A41', night: '#0F151B', opening: '#05090D' };

/** Thin lines of the model (ceiling outline, rails, drop-lines), sRGB and opacity. */
export const MODEL_LINE: Record<Theme, { color: string; opacity: number }> = {
  day: { color: '#1B2530', opacity: 0.5 },
  night: { color: '#F3F1EA', opacity: 0.45 },
  opening: { color: '#F3F1EA', opacity: 0.4 },
};

/** Multiplier of the presentation light on what is not in the room, per table tone. */
export const PRESENTATION: Record<Theme, Rgb> = {
  day: [1, 1, 1],
  night: [0.15, 0.17, 0.205],
  opening: [0.04, 0.05, 0.066],
};

/** Luminance of a linear colour. Source: ITU-R BT.709 weights. */
export function luminance([r, g, b]: Rgb): number {
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** The material's hue at the reflectance that the calculation uses. */
export function tinted(material: Rgb, reflectance: number): Rgb {
  const scale = reflectance / luminance(material);
  return [
    Math.min(material[0] * scale, 0.95),
    Math.min(material[1] * scale, 0.95),
    Math.min(material[2] * scale, 0.95),
  ];
}
