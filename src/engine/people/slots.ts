/** The numbers of a pose, by place in a small array. Lengths in metres in the body frame: x right, y forward, z up. */
export type Pose = Float64Array;
/** An index into a pose, no quantity. */
export type Slot = number;

/** 0-1 floor place in the room; 2-3 sine and cosine of the bearing. */
export const PLACE: Slot = 0;
export const BEARING: Slot = 2;
/** Middle of the hip joints: x, y, z. */
export const HIP: Slot = 4;
/** Trunk: sine of its lean to the right, and forward. */
export const LEAN: Slot = 7;
/** Shoulders ahead on the left (tangent of the angle). */
export const TWIST: Slot = 9;
/** 11-13 left ankle, 14 its heel rise (sine of the pitch, toes down positive); 15-18 right. */
export const LEFT_FOOT: Slot = 11;
export const RIGHT_FOOT: Slot = 15;
/** Wrists: left x y z, right x y z. */
export const HANDS: Slot = 19;
/** Outward sweep of the left and right forearm about the upright through the elbow, rad. */
export const SWEEP: Slot = 25;
export const POSE_NUMBERS: Slot = 27;
