/** `npm run bench`: figures for the README. Every one is also a ratio to a calibration loop of the same run. */
import { storyFrom } from '../../src/cli/stories.ts';
import { createSetup } from '../../src/engine/setup.ts';
import { skyMoment } from '../../src/engine/skyClock.ts';
import type { Scenario } from '../../src/engine/types.ts';
import { detectionFigures, labWith, MODEL } from './detection.ts';
import { rayFigures } from './detectionRays.ts';
import { engineFigures, withWalkers } from './engine.ts';
import { gradingFigures } from './grading.ts';
import { type LightBenchRoom, lightFigures } from './light.ts';
import { lightPathFigures } from './lightPaths.ts';
import { lightYearFigures } from './lightYear.ts';
import { calibrationMs, table } from './measure.ts';
import { sceneFigures } from './scene.ts';
import { signalFigures } from './signal.ts';
import { sunDragFigures } from './sunDrag.ts';

/** The story's room with the sun on its windows, and the same at night. */
function lightRoomOf(scenario: Scenario): LightBenchRoom {
  const setup = createSetup(scenario);
  const moment = (localTime: string) =>
    skyMoment({ ...scenario, start: { ...scenario.start, localTime } }, setup, scenario.seed, 0);
  return {
    room: scenario.room,
    site: scenario.site,
    setup: { ...setup, sky: 'clear' },
    model: scenario.detectorModel,
    sunny: { ...moment('12:30'), sky: 'clear' },
    night: { ...moment('02:00'), sky: 'clear' },
  };
}

const yardstickMs = calibrationMs();
console.log(`calibration loop: ${yardstickMs.toFixed(2)} ms (two million steps of multiply, add, divide, root)\n`);

const story = storyFrom('scenarios/winter-walk-in.json');
if (!story) process.exit(1);
console.log(table(engineFigures(story, yardstickMs)));
console.log(`\n${table(signalFigures(withWalkers(story, 6), yardstickMs))}`);
console.log(`\n${table(lightFigures(lightRoomOf(story), yardstickMs))}`);
console.log(`\n${table(lightYearFigures(lightRoomOf(story), yardstickMs))}`);
console.log(`\n${table(lightPathFigures(yardstickMs))}`);
const { room } = story;
console.log(`\n${table(detectionFigures(yardstickMs, { room, setup: createSetup(story) }))}`);
console.log(`\n${table(rayFigures(labWith(MODEL), yardstickMs))}`);
console.log(`\n${table(gradingFigures(yardstickMs))}`);
console.log(`\n${table(await sceneFigures(yardstickMs))}`);
console.log(`\n${table(await sunDragFigures(yardstickMs))}`);
