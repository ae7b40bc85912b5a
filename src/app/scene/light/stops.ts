/** Light Map colours, sRGB, from 50 to 2 000 lx in equal steps of the logarithm. Values: `look`, steadily rising in lightness. */
export const LIGHT_MAP_STOPS = [
  '#141B4D',
  '#2A3673',
  '#4A4F82',
  '#6B6A86',
  '#8D8680',
  '#B5A671',
  '#DCC857',
  '#FFF3A0',
] as const;
