import { describe, expect, it } from 'vitest';
import type { Recording } from '../../src/engine/recording.ts';
import { createSimulation, digestOf, stepSimulation } from '../../src/engine/simulation.ts';
import type { Input, RoomSpec, Scenario } from '../../src/engine/types.ts';
import { refusal } from '../../src/host/refusals.ts';
import { replayRecording } from '../../src/host/replay.ts';
import { act, advance, createSession, recordingOf, seek } from '../../src/host/session.ts';
import { checkInputs } from '../../src/scenario/checks.ts';
import { smallStory } from '../support/smallStory.ts';

const scenario = smallStory();

/** Light of the room after inputs in its first tick; lamps of both rows full on. */
function lightAfter(inputs: Input[], story: Scenario = scenario) {
  const sim = createSimulation(story);
  sim.state.plant.innerLevel = 1;
  sim.state.plant.windowLevel = 1;
  const step = stepSimulation(
    sim,
    inputs.map((input, serial) => ({ tick: 0, serial, input })),
  );
  return { light: step.light, setup: sim.state.setup, rowLx: sim.tables.light.rowLx };
}

function storyWith(room: Partial<RoomSpec>): Scenario {
  return { ...scenario, room: { ...scenario.room, ...room } };
}

const MOVED: Input = { kind: 'moveLuminaire', luminaireId: 'lamp-window', atM: [2, 2.3] };
const WIDER: Input = { kind: 'setLampKind', row: 'window', distribution: 'batwing' };

describe('changing the room', () => {
  it('a moved luminaire gives the light of a room in which it always hung there', () => {
    const luminaires = scenario.room.luminaires.map((l) =>
      l.id === 'lamp-window' ? { ...l, atM: [2, 2.3] as [number, number] } : l,
    );
    const moved = lightAfter([MOVED]);
    expect(moved.light).toEqual(lightAfter([], storyWith({ luminaires })).light);
    expect(moved.light.deskLx).not.toEqual(lightAfter([]).light.deskLx);
  });

  it('other lamps in a row give the light of a room that always had them, and leave the other row alone', () => {
    const luminaires = scenario.room.luminaires.map((l) =>
      l.row === 'window' ? { ...l, distribution: 'batwing' as const } : l,
    );
    const wider = lightAfter([WIDER]);
    const before = lightAfter([]);
    expect(wider.light).toEqual(lightAfter([], storyWith({ luminaires })).light);
    expect(wider.rowLx.window).not.toEqual(before.rowLx.window);
    expect(wider.rowLx.inner).toEqual(before.rowLx.inner);
  });

  it('the opposite change brings the same light back, to the last digit', () => {
    const back: Input[] = [
      { kind: 'moveLuminaire', luminaireId: 'lamp-window', atM: [2, 2.8] },
      { kind: 'setLampKind', row: 'window', distribution: 'lambert' },
    ];
    expect(lightAfter([MOVED, WIDER, ...back]).light).toEqual(lightAfter([]).light);
  });

  it('a lighter floor raises the ceiling readings more than the desk', () => {
    // Common practice and plain radiosity: the photometers look at the floor, the desk sees it only by the ceiling.
    const dark = lightAfter([]).light;
    const lighter = lightAfter([{ kind: 'setReflectance', target: 'floor', reflectance: 0.6 }]).light;
    const reading = lighter.readings.innerLx / dark.readings.innerLx;
    const desk = lighter.deskLx[0]! / dark.deskLx[0]!;
    expect(reading).toBeGreaterThan(1.2);
    expect(desk).toBeGreaterThan(1);
    expect(reading).toBeGreaterThan(desk * 1.1);
  });

  it('a room without changed lamps carries no list of them, so its digests are those of before', () => {
    expect('luminaires' in lightAfter([]).setup).toBe(false);
    expect(lightAfter([MOVED]).setup.luminaires).toHaveLength(2);
  });

  it('replays exactly, also from the middle and after going back', () => {
    const session = createSession(scenario);
    const inputs: Input[] = [
      MOVED,
      { kind: 'setReflectance', target: 'desk', reflectance: 0.8 },
      WIDER,
      { kind: 'moveFurniture', furnitureId: 'desk', atM: [2.55, 2.6] },
    ];
    for (const input of inputs) {
      advance(session, 300);
      act(session, input);
    }
    advance(session, 300);
    const recording = JSON.parse(JSON.stringify(recordingOf(session))) as Recording;
    const end = digestOf(session.sim.state);
    const again = replayRecording(scenario, recording);
    expect(again.firstMismatchTick).toBeNull();
    expect(digestOf(again.session.sim.state)).toBe(end);
    seek(session, 450);
    seek(session, 1499);
    expect(digestOf(session.sim.state)).toBe(end);
  });

  it('is refused outside the room, and for luminaires that are not there', () => {
    const session = createSession(scenario);
    expect(refusal(session, [], { ...MOVED, atM: [9, 1] } as Input)).toMatch(/outside/);
    expect(refusal(session, [], MOVED)).toBeNull();
    const unknown: Input = { kind: 'moveLuminaire', luminaireId: 'lamp-9', atM: [1, 1] };
    expect(checkInputs('inputs.json', scenario, [unknown]).join()).toMatch(/luminaire \(lamp-inner, lamp-window\)/);
    expect(checkInputs('inputs.json', scenario, [MOVED, WIDER])).toEqual([]);
  });
});
