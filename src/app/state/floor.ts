/** A tap on the floor, wherever the floor is drawn: what it does depends on the tool in hand. */
import type { PointM } from '../../engine/types.ts';
import { insideRoom, placePerson, walkTo } from './acts.ts';
import { placeProbe } from './probeActs.ts';
import { getApp, setApp } from './store.ts';

/** True when the tap did something. */
export function tapFloor(atM: PointM): boolean {
  const { floorTool } = getApp();
  switch (floorTool.kind) {
    case 'none':
      return false;
    case 'place':
      placePerson(floorTool.personId, atM);
      return true;
    case 'walk':
      walkTo(floorTool.personId, atM);
      setApp({ floorTool: { kind: 'none' } });
      return true;
    case 'line':
      setApp({ floorTool: { ...floorTool, pointsM: [...floorTool.pointsM, insideRoom(atM)] } });
      return true;
    case 'probe':
      // It stays in hand, to be laid down again elsewhere.
      placeProbe(floorTool.probeId, atM);
      return true;
  }
}
