/**
 * `npm run bench`, or `npm run bench -- light sensing` for some of it: figures for the README. Each part has a process of
 * its own, as the worker of the page has: what ran before it must not slow it. Every figure is also a ratio to a
 * calibration loop of the same process.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { storyFrom } from '../../src/cli/stories.ts';
import { createSetup } from '../../src/engine/setup.ts';
import { skyMoment } from '../../src/engine/skyClock.ts';
import type { Scenario } from '../../src/engine/types.ts';
import { detectionFigures, labWith, MODEL } from './detection.ts';
import { rayFigures } from './detectionRays.ts';
import { engineFigures, withWalkers } from './engine.ts';
import { gradingFigures } from './grading.ts';
import { type LightBenchRoom, lightFigures, withTenSensors } from './light.ts';
import { lightPathFigures } from './lightPaths.ts';
import { lightYearFigures } from './lightYear.ts';
import { calibrationMs, type Figure, table } from './measure.ts';
import { sceneFigures } from './scene.ts';
import { signalFigures } from './signal.ts';
import { sunDragFigures } from './sunDrag.ts';

/** The story's room with the sun on its windows, and the same at night. */
function lightRoomOf(scenario: Scenario): LightBenchRoom {
  const setup = createSetup(scenario);
  const moment = (localTime: string) =>
    skyMoment({ ...scenario, start: { ...scenario.start, localTime } }, setup, scenario.seed, 0);
  return {
    room: withTenSensors(scenario.room),
    site: scenario.site,
    setup: { ...setup, sky: 'clear' },
    model: scenario.detectorModel,
    sunny: { ...moment('12:30'), sky: 'clear' },
    night: { ...moment('02:00'), sky: 'clear' },
  };
}

type Part = (yardstickMs: number, story: Scenario) => Figure[] | Promise<Figure[]>;

const PARTS: Record<string, Part> = {
  room: (ms, story) => engineFigures(story, ms),
  worker: (ms, story) => signalFigures(withWalkers(story, 6), ms),
  light: (ms, story) => lightFigures(lightRoomOf(story), ms),
  year: (ms, story) => lightYearFigures(lightRoomOf(story), ms),
  paths: (ms) => lightPathFigures(ms),
  sensing: (ms, story) => detectionFigures(ms, { room: story.room, setup: createSetup(story) }),
  rays: (ms) => rayFigures(labWith(MODEL), ms),
  marking: (ms) => gradingFigures(ms),
  picture: (ms) => sceneFigures(ms),
  sunDrag: (ms) => sunDragFigures(ms),
};

/** Measures one part in this process. */
async function measure(name: string): Promise<void> {
  const story = storyFrom('scenarios/winter-walk-in.json');
  const part = PARTS[name];
  if (!story) return;
  if (!part) {
    console.error(`bench: there is no part ${name}; there are ${Object.keys(PARTS).join(', ')}.`);
    process.exitCode = 1;
    return;
  }
  const yardstickMs = calibrationMs();
  console.log(
    `${name}: calibration loop ${yardstickMs.toFixed(2)} ms (two million steps of multiply, add, divide, root)\n`,
  );
  console.log(`${table(await part(yardstickMs, story))}\n`);
}

const [mode, ...rest] = process.argv.slice(2);
if (mode === '--here') {
  await measure(rest[0] ?? '');
} else {
  const names = mode === undefined ? Object.keys(PARTS) : [mode, ...rest];
  const failed = names.filter((name) => {
    const args = [...process.execArgv, fileURLToPath(import.meta.url), '--here', name];
    return spawnSync(process.execPath, args, { stdio: 'inherit' }).status !== 0;
  });
  if (failed.length > 0) process.exitCode = 1;
}
