import { beforeAll, describe, expect, it } from 'vitest';
import type { TraceEvent } from '../../src/engine/trace.ts';
import type { Pulse, Scenario } from '../../src/engine/types.ts';
import { SUB_STEPS } from '../../src/engine/units.ts';
import { SIGNAL_KEPT_TICKS, SIGNAL_PER_TICK, sightsAt, signalAt } from '../../src/host/lookBack.ts';
import { act, advance, createSession, restoreBranch, type Session, seek } from '../../src/host/session.ts';
import { smallStory } from '../support/smallStory.ts';

const scenario = smallStory();
const { holdUv, switchOnUv, reducedFactor, hysteresisShare } = scenario.detectorModel;

/** Two walkers and a typist, so that every quadrant and both signs have pulses. */
const BUSY: Scenario = {
  ...scenario,
  people: [
    ...scenario.people,
    {
      ...scenario.people[0]!,
      id: 'B',
      atM: [3.4, 0.6],
      outsideAtStart: false,
      plan: [
        { act: 'walk', toM: [3.4, 3.4], speedMps: 1 },
        { act: 'walk', toM: [0.6, 3.4], speedMps: 0.8 },
        { act: 'walk', toM: [0.6, 1.4], speedMps: 0.6 },
        { act: 'type', forS: 60 },
      ],
    },
  ],
};

function reducedStory(): Scenario {
  return { ...BUSY, settings: { ...BUSY.settings, reducedSensitivity: true } };
}

/** Entries into the window around zero, by our own reading of the rule: past +-limit; left again at hysteresis x limit. */
function crossings(session: Session, channel: number, limitUv: number): { subStep: number; polarity: number }[] {
  const { signalUv } = signalAt(session, 0, session.line.headTick);
  const found: { subStep: number; polarity: number }[] = [];
  let side = 0;
  for (let i = 0; i < (signalUv.length / SIGNAL_PER_TICK) * SUB_STEPS; i++) {
    const tick = Math.floor(i / SUB_STEPS);
    const uv = signalUv[tick * SIGNAL_PER_TICK + channel * SUB_STEPS + (i % SUB_STEPS)]!;
    const now = uv > limitUv ? 1 : uv < -limitUv ? -1 : 0;
    if (now !== 0 && now !== side) found.push({ subStep: i, polarity: now });
    if (now !== 0) side = now;
    else if (Math.abs(uv) < hysteresisShare * limitUv || Math.sign(uv) === -side) side = 0;
  }
  return found;
}

function pulsesOf(events: readonly TraceEvent[], channel: number, level: Pulse['level']) {
  return events.flatMap((event) =>
    event.kind === 'pulse' && event.pulse.channel === channel && event.pulse.level === level
      ? [{ subStep: event.tick * SUB_STEPS + event.pulse.subStep, polarity: event.pulse.polarity }]
      : [],
  );
}

describe.each([
  ['at factory sensitivity', BUSY, 1, ['hold', 'switchOn']],
  ['in reduced sensitivity', reducedStory(), reducedFactor, ['holdReduced', 'switchOnReduced']],
] as const)('the signal that is shown, %s', (_, story, factor, [hold, switchOn]) => {
  let session: Session;
  beforeAll(() => {
    session = createSession(story);
    advance(session, 700);
  });

  it('is, at every pulse of the log, the very number that passed the threshold', () => {
    const { signalUv } = signalAt(session, 0, 700);
    const pulses = session.line.events.filter((event) => event.kind === 'pulse');
    expect(pulses.length).toBeGreaterThan(20);
    expect(new Set(pulses.map(({ pulse }) => pulse.polarity)).size).toBe(2);
    for (const { tick, pulse } of pulses) {
      const shown = signalUv[tick * SIGNAL_PER_TICK + pulse.channel * SUB_STEPS + pulse.subStep]!;
      expect(shown).toBe(Math.fround(pulse.signalUv));
    }
  });

  it('crosses each threshold in force exactly where the log has a pulse, with its sign, and nowhere else', () => {
    let found = 0;
    for (let channel = 0; channel < 4; channel++) {
      for (const [level, limitUv] of [
        [hold, holdUv * factor],
        [switchOn, switchOnUv * factor],
      ] as const) {
        const shown = crossings(session, channel, limitUv);
        expect(shown, `channel ${channel}, ${level}`).toEqual(pulsesOf(session.line.events, channel, level));
        found += shown.length;
      }
    }
    expect(found).toBeGreaterThan(20);
  });
});

describe('looking back at the signal', () => {
  it('gives the same numbers from a clone as were kept when they were worked', () => {
    const session = createSession(BUSY);
    advance(session, 650);
    const kept = signalAt(session, 0, 650);
    session.lookBack.keptFrom = session.lookBack.keptTo;
    const again = signalAt(session, 0, 650);
    expect(session.lookBack.signalRoom).not.toBeNull();
    expect(again).toEqual(kept);
    expect(signalAt(session, 333, 444).signalUv).toEqual(
      kept.signalUv.slice(333 * SIGNAL_PER_TICK, 444 * SIGNAL_PER_TICK),
    );
  });

  it('keeps ten minutes and works what is older again, across the seam without a gap', () => {
    const session = createSession(scenario);
    advance(session, SIGNAL_KEPT_TICKS + 300);
    expect(session.lookBack.keptTo - session.lookBack.keptFrom).toBe(SIGNAL_KEPT_TICKS);
    const seam = signalAt(session, 250, 350);
    const whole = createSession(scenario);
    advance(whole, 350);
    expect(seam).toEqual(signalAt(whole, 250, 350));
  });

  it('is cut to what has been worked', () => {
    const session = createSession(scenario);
    expect(signalAt(session, 0, 100).signalUv).toHaveLength(0);
    advance(session, 40);
    expect(signalAt(session, 30, 100)).toMatchObject({ fromTick: 30 });
    expect(signalAt(session, 30, 100).signalUv).toHaveLength(10 * SIGNAL_PER_TICK);
  });

  it('shows nothing of a future that was set aside, and all of it once it is brought back', () => {
    const session = createSession(BUSY);
    advance(session, 300);
    const first = signalAt(session, 100, 300);
    seek(session, 149);
    act(session, { kind: 'placePerson', personId: 'A', atM: [1, 1] });
    advance(session, 150);
    const second = signalAt(session, 100, 300);
    const upTo = 50 * SIGNAL_PER_TICK;
    expect(second.signalUv.slice(0, upTo)).toEqual(first.signalUv.slice(0, upTo));
    expect(second.signalUv.slice(upTo)).not.toEqual(first.signalUv.slice(upTo));
    restoreBranch(session, 0);
    expect(signalAt(session, 100, 300)).toEqual(first);
  });
});

describe('questions about the past', () => {
  it('leave the run as it is: same digests, same clones, same room', () => {
    const plain = createSession(BUSY);
    advance(plain, 1300);
    const asked = createSession(BUSY);
    for (const ticks of [400, 500, 400]) {
      advance(asked, ticks);
      sightsAt(asked, asked.line.headTick - 1);
      asked.lookBack.keptFrom = asked.lookBack.keptTo;
      signalAt(asked, asked.line.headTick - 100, asked.line.headTick);
    }
    expect(asked.line.digests.length).toBe(3);
    expect(asked.line.digests).toEqual(plain.line.digests);
    expect(asked.line.checkpoints).toEqual(plain.line.checkpoints);
    expect(asked.sim.state).toEqual(plain.sim.state);
  });

  it('are answered the same by a room that followed the run and by one that starts at a clone', () => {
    const followed = createSession(BUSY);
    for (let k = 0; k < 5; k++) {
      advance(followed, 200);
      sightsAt(followed, followed.line.headTick - 1);
    }
    const fresh = createSession(BUSY);
    advance(fresh, 1000);
    const a = sightsAt(followed, 999);
    const b = sightsAt(fresh, 999);
    expect(a.map(({ largest: _, ...rest }) => rest)).toEqual(b.map(({ largest: _, ...rest }) => rest));
    a.forEach((answer, i) => {
      // What rang before the clone has faded to 5e-5 of itself.
      expect(answer.largest!.uv).toBeCloseTo(b[i]!.largest!.uv, 1);
      expect(answer.largest!.tick).toBe(b[i]!.largest!.tick);
    });
  });

  it('name the last counted pulse of each Stand-in as of the instant asked about', () => {
    const session = createSession(BUSY);
    advance(session, 500);
    for (const shown of [40, 499]) {
      const ticks = session.line.sightings.filter((s) => s.tick <= shown && s.personId === 'B').map((s) => s.tick);
      expect(sightsAt(session, shown).find((s) => s.personId === 'B')!.lastSeenTick).toBe(ticks.at(-1));
    }
    const counted = session.line.events.filter((e) => e.kind === 'pulse' && e.counted && e.pulse.atM !== null);
    const ticks = new Set(counted.map((e) => e.tick));
    for (const { tick } of session.line.sightings) expect(ticks).toContain(tick);
    expect(new Set(session.line.sightings.map((s) => s.personId))).toEqual(new Set(['A', 'B']));
  });
});
