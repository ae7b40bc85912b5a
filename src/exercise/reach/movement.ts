/** How somebody moves, for whom the reach of the detector is asked. */
import type { Activity } from '../../engine/types.ts';

/** Source: the notebook's own list of gestures for who sits. */
export function movementOf(act: Activity | 'walk' | 'outside'): 'seated' | 'walking' | 'standing' {
  if (act === 'reach' || act === 'type' || act === 'lean' || act === 'read') return 'seated';
  return act === 'walk' ? 'walking' : 'standing';
}
