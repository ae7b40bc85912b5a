/** Signal chain and comparators between two sub-steps; plain numbers. Owner of the shape: this folder. */
export interface MovementState {
  filters: number[];
}
/** Derived from detector, mount, room; never part of the state. */
export interface MovementTables {
  thresholdsUv: { hold: number; switchOn: number; holdReduced: number; switchOnReduced: number };
}
