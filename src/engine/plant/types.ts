/** Loads behind the contacts. Levels are light output, 0-1. */
export interface PlantState {
  innerLevel: number;
  windowLevel: number;
  airRunning: boolean;
}
