import { afterEach, expect, it } from 'vitest';
import { wordsShown } from '../../src/app/state/outputWords.ts';
import { type OpenJob, setApp } from '../../src/app/state/store.ts';
import type { OutputView } from '../../src/engine/frame.ts';

const job: OpenJob = {
  id: 'x',
  kind: 'commission',
  seed: 1,
  aid: 'practice',
  stage: 'working',
  untilTick: 9,
  allows: [],
};
const view = (badge: OutputView['badge']): OutputView => ({
  output: 'airContact',
  on: true,
  state: 'airOn',
  badge,
  sinceTick: 0,
  untilTick: 1800,
});

afterEach(() => setApp({ job: null }));

it('a worked example, which asks when something switches, tells the state and never the time that is left', () => {
  const badges = ['timing', 'brightEnough', 'watching'] as const;
  setApp({ job });
  for (const badge of badges) expect(wordsShown(view(badge), 0).full).toMatch(/3:00/);
  setApp({ job: { ...job, stage: 'example' } });
  for (const badge of badges) {
    const { full, rest } = wordsShown(view(badge), 0);
    expect(full).not.toMatch(/\d/);
    expect(rest).not.toBe('');
  }
});
