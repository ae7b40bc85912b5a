/** Acts that a room of ours cannot take, said in a sentence; and acts that take a moment. */
import { corridorAt, isInRoom } from '../engine/room/corridor.ts';
import type { RoomInput } from '../engine/setup.ts';
import type { Input, PointM } from '../engine/types.ts';
import type { Session } from './session.ts';

/** Most people in one room. Source: the product's own limits. */
const MOST_PEOPLE = 8;

/** `before` are acts of the same moment that come first. Null: fine. */
export function refusal(session: Session, before: readonly Input[], input: Input): string | null {
  const { room } = session.sim.scenario;
  const outside = (p: PointM) => !isInRoom(room, p);
  switch (input.kind) {
    case 'addPerson': {
      const here = session.sim.state.people.filter((person) => !person.removed);
      const there = here.length + before.filter((b) => b.kind === 'addPerson').length;
      if (there >= MOST_PEOPLE) return `A room holds ${MOST_PEOPLE} people; nobody more can be added.`;
      const taken = here.some((person) => person.spec.id === input.person.id);
      return taken ? `There is a person ${input.person.id} already.` : null;
    }
    case 'placePerson':
      return outside(input.atM) && !corridorAt(room, input.atM) ? 'That place is outside the room.' : null;
    case 'moveFurniture':
    case 'moveLuminaire':
      return outside(input.atM) ? 'That place is outside the room.' : null;
    case 'moveDetector':
      return outside(input.mount.atM) ? 'The detector must hang inside the room.' : null;
    default:
      return null;
  }
}

/** The lens map or the transfer of light is worked out anew: half a second in which old numbers are shown greyed. */
export function rebuildsTables(input: Input): input is RoomInput {
  switch (input.kind) {
    case 'setBlind':
    case 'setDoor':
    case 'moveDetector':
    case 'setWarmThing':
    case 'moveFurniture':
    case 'moveLuminaire':
    case 'setLampKind':
    case 'setReflectance':
      return true;
    default:
      return false;
  }
}
