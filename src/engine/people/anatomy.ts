/**
 * Proportions of the Stand-in: one clothed adult, scaled by height. Joint heights after the segment table of Drillis and
 * Contini (1966) as shares of height, from memory; girths are Assumed for a broad clothed outline (a thinner figure has
 * less area and a smaller signal, in proportion).
 * Lengths in metres for a figure of REFERENCE_HEIGHT_M unless said otherwise.
 */
import { SEAT_HEIGHT_M } from '../room/boxes.ts';

/** Height all lengths of this file belong to, m. Source: the figure of the pictures. */
export const REFERENCE_HEIGHT_M = 1.78;
/** Height of the hip joints standing, m. Source: .530 of height, segment table, from memory. */
export const HIP_STANDING_M = 0.944;
/** Half the distance of the hip joints, m. Source: .191 of height between hips is the outline; joints Assumed .19 m apart. */
export const HIP_HALF_M = 0.098;
/** Hip to knee, m. Source: .245 of height, segment table, from memory. */
export const THIGH_M = 0.436;
/** Knee to ankle, m. Source: .246 of height, segment table, from memory. */
export const SHANK_M = 0.438;
/** Height of the ankle, m. Source: .039 of height, from memory; plus a sole. */
export const ANKLE_M = 0.08;
/** Shoulder to elbow, m. Source: .186 of height, segment table, from memory. */
export const UPPER_ARM_M = 0.331;
/** Elbow to wrist, m. Source: .146 of height, segment table, from memory. */
export const FOREARM_M = 0.26;
/** Wrist to middle of the hand, m. Source: half of .108 of height, from memory. */
export const HAND_OFFSET_M = 0.075;
/** Shoulder joints above the hips along the trunk, m. Source: .818 of height less the hips and a little slope, from memory. */
export const SHOULDER_UP_M = 0.478;
/** Foot of the neck above the hips along the trunk, m. Assumed: so that the crown comes to the full height. */
export const NECK_UP_M = 0.53;
/** Half the distance of the shoulder joints, m. Source: .129 of height, from memory, less the upper arm's own radius. */
export const SHOULDER_HALF_M = 0.188;
/** Knees stay this share of full stretch or less, so that a joint never locks. Assumed: more would make the knee jump. */
export const REACH_SHARE = 0.999;
/** Hips above the seat, m. Assumed: half a thigh with clothing; higher lifts the head as much. */
export const HIP_ABOVE_SEAT_M = 0.1;
/** Hips of a seated person behind the chair's centre, m. Assumed: so that the back meets the backrest. */
export const HIP_BACK_M = 0.05;
/** Feet of a seated person before the chair's centre, m. Assumed: shanks about upright. */
export const FOOT_AHEAD_M = 0.33;
/** Hips of a seated figure above the floor at the reference height, m. Source: seat height of the room's chairs. */
export const HIP_SEATED_M = SEAT_HEIGHT_M + HIP_ABOVE_SEAT_M;

/** Feet above the floor on the ladder, m. Assumed: third tread of a step ladder; the head stays clear of a 2.5 m ceiling. */
export const LADDER_RISE_M = 0.6;

/** Hands at rest, body frame (right, forward, up) of the right hand; the left is its mirror. Wrist places, m. */
export const HANG_M = [0.235, 0.03, 0.842] as const;
/** On the thighs. Assumed: relaxed sitting. */
export const LAP_M = [0.13, 0.13, 0.69] as const;
/** On a keyboard. Assumed: desk of .72-.75 m, hands just above it. */
export const DESK_M = [0.12, 0.33, 0.79] as const;
/** Before the face, at work overhead. Assumed: a screwdriver's height. */
export const TOOL_M = [0.14, 0.3, 1.5] as const;
/** Holding a book or sheets over the desk edge. Assumed: a little higher and nearer than a keyboard. */
export const BOOK_M = [0.13, 0.27, 0.85] as const;
