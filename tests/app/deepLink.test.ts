import { afterEach, describe, expect, it } from 'vitest';
import { linkHash, readLink } from '../../src/app/state/deepLink.ts';
import { type OpenJob, setApp } from '../../src/app/state/store.ts';
import { storyFrom } from '../../src/cli/stories.ts';

const job: OpenJob = {
  id: 'stays-dark',
  kind: 'diagnose',
  seed: 17,
  aid: 'test',
  stage: 'working',
  untilTick: 100,
  allows: [],
};

afterEach(() => setApp({ scenario: null, job: null, view: 'room' }));

describe('an address', () => {
  it('of a job names its bench and its level of aid, so that a reload gives no more help than before', () => {
    setApp({ scenario: storyFrom('winter-walk-in')!, job, view: 'plan' });
    const hash = linkHash(false);
    expect(hash).toBe('#job=stays-dark&seed=17&aid=test&view=plan');
    expect(readLink(hash, '')).toMatchObject({ job: 'stays-dark', seed: 17, aid: 'test', view: 'plan' });
  });

  it('without a level, or with one that is none, leaves it to the job', () => {
    expect(readLink('#job=stays-dark', '')).toMatchObject({ seed: 1, aid: null });
    expect(readLink('#job=stays-dark&aid=easy', '').aid).toBeNull();
  });
});
