/** The numbers of a pose, by place in a small array. Lengths in metres in the body frame: x right, y forward, z up. */
export type Pose = Float64Array;

/** 0-1 floor place in the room; 2-3 sine and cosine of the bearing. */
export const PLACE = 0;
export const BEARING = 2;
/** Middle of the hip joints: x, y, z. */
export const HIP = 4;
/** Trunk: sine of its lean to the right, and forward. */
export const LEAN = 7;
/** Shoulders ahead on the left (tangent of the angle). */
export const TWIST = 9;
/** 11-13 left ankle, 14 its heel rise (sine of the pitch, toes down positive); 15-18 right. */
export const LEFT_FOOT = 11;
export const RIGHT_FOOT = 15;
/** Wrists: left x y z, right x y z. */
export const HANDS = 19;
/** Outward sweep of the left and right forearm about the upright through the elbow, rad. */
export const SWEEP = 25;
export const POSE_NUMBERS = 27;
