/**
 * Half-widths and places of the ellipsoids, m at the reference height. Assumed throughout: a broad clothed adult drawn to
 * look right in the pictures; the clothed area seen from the side, about .75 m2, sets how strong a walker's signal is.
 */
export const GIRTH = {
  hairUp: 0.197,
  hairWide: 0.082,
  hairDeep: 0.1,
  hairHigh: 0.109,
  faceUp: 0.105,
  faceAhead: 0.018,
  faceWide: 0.064,
  faceDeep: 0.08,
  faceHigh: 0.125,
  chestUp: 0.305,
  chestWide: 0.205,
  chestDeep: 0.135,
  chestHigh: 0.285,
  pelvisUp: 0.045,
  pelvisWide: 0.178,
  pelvisDeep: 0.135,
  pelvisHigh: 0.2,
  upperArm: 0.062,
  forearm: 0.048,
  armOver: 0.06,
  forearmOver: 0.035,
  hand: 0.038,
  handHalf: 0.09,
  thigh: 0.092,
  thighOver: 0.07,
  shank: 0.066,
  shankOver: 0.06,
  footAhead: 0.06,
  footDrop: 0.03,
  footLong: 0.135,
  footWide: 0.05,
  footHigh: 0.05,
} as const;

/** Slots of the ellipsoids of a person. */
export const PART = {
  hair: 0,
  face: 1,
  chest: 2,
  pelvis: 3,
  leftUpperArm: 4,
  rightUpperArm: 5,
  leftForearm: 6,
  rightForearm: 7,
  leftHand: 8,
  rightHand: 9,
  leftThigh: 10,
  rightThigh: 11,
  leftShank: 12,
  rightShank: 13,
  leftFoot: 14,
  rightFoot: 15,
} as const;

/** Index of each slot's PartKind in KINDS (types.ts order: hair, face, clothing, hand, thing). */
export const PERSON_KINDS = Uint8Array.from([0, 1, 2, 2, 2, 2, 2, 2, 3, 3, 2, 2, 2, 2, 2, 2]);
