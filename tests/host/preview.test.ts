import { describe, expect, it } from 'vitest';
import { forgetParts } from '../../src/engine/light/memory.ts';
import type { Input } from '../../src/engine/types.ts';
import { fieldOf, previewField } from '../../src/engine/view.ts';
import type { FromWorker } from '../../src/host/messages.ts';
import { createOutbox, postPreview } from '../../src/host/outbox.ts';
import { actStandingStill, createSession } from '../../src/host/session.ts';
import { smallStory } from '../support/smallStory.ts';

const scenario = smallStory();
const MOVED = { kind: 'moveFurniture', furnitureId: 'desk', atM: [2.55, 2.6] } as const satisfies Input;

const FURTHER = { ...MOVED, atM: [2.45, 2.5] } as const satisfies Input;

/** Mean daylight on a surface of the picture, lx. */
function meanLx({ faces, daylightLx }: ReturnType<typeof fieldOf>, id: string): number {
  const face = faces.find((f) => f.id === id)!;
  const lx = daylightLx.subarray(face.offset, face.offset + face.nu * face.nv);
  return lx.reduce((sum, value) => sum + value, 0) / lx.length;
}

describe('the first picture of a changed room', () => {
  it('shows the furniture where it will stand, and every face within 8 % of the true picture', () => {
    forgetParts();
    const session = createSession(scenario, scenario.seed);
    const first = previewField(session.sim, [MOVED])!;
    actStandingStill(session, [MOVED]);
    const field = fieldOf(session.sim);
    expect(first.faces.map((f) => [f.id, f.originM])).toEqual(field.faces.map((f) => [f.id, f.originM]));
    for (const id of ['floor', 'ceiling', 'left', 'right', 'front']) {
      expect(Math.abs(meanLx(first, id) / meanLx(field, id) - 1), id).toBeLessThan(0.08);
    }
  });

  it('is left out where the true one is quick: a room that is remembered, and all but furniture and lamps', () => {
    const told: FromWorker[] = [];
    const outbox = createOutbox((message) => told.push(message));
    const session = createSession(scenario, scenario.seed);
    postPreview(outbox, session, [{ kind: 'setReflectance', target: 'floor', reflectance: 0.4 }]);
    postPreview(outbox, session, [{ kind: 'moveDetector', mount: { ...scenario.mount, turnDeg: 40 } }]);
    expect(told).toEqual([]);
    postPreview(outbox, session, [FURTHER]);
    expect(told.map((message) => message.type)).toEqual(['field']);
    actStandingStill(session, [FURTHER]);
    postPreview(outbox, session, [FURTHER]);
    expect(told).toHaveLength(1);
  });

  it('leaves nothing behind: the run goes on as if nobody had looked ahead', () => {
    const [seen, unseen] = [0, 1].map(() => createSession(scenario, scenario.seed));
    const elsewhere = { ...MOVED, atM: [2.5, 2.55] } as const satisfies Input;
    expect(previewField(seen!.sim, [elsewhere])).not.toBeNull();
    for (const session of [seen!, unseen!]) actStandingStill(session, [elsewhere]);
    expect(seen!.sim.state).toEqual(unseen!.sim.state);
  });
});
