/** JSON Schemas of the files that people write, so that their editor completes and checks them. */
import * as z from 'zod/mini';
import { detectorFile } from './schemas/detector.ts';
import { exerciseFile } from './schemas/exercise.ts';
import { faultsFile } from './schemas/faults.ts';
import { inputsFile } from './schemas/inputs.ts';
import { roomFile } from './schemas/room.ts';
import { storyFile } from './schemas/story.ts';

const FILES = {
  story: storyFile,
  room: roomFile,
  detector: detectorFile,
  inputs: inputsFile,
  exercise: exerciseFile,
  faults: faultsFile,
};

/** File name in public/schema -> its text. */
export function jsonSchemaFiles(): Record<string, string> {
  return Object.fromEntries(
    Object.entries(FILES).map(([name, schema]) => {
      const text = JSON.stringify({ title: `Halflit ${name}`, ...z.toJSONSchema(schema, { reused: 'ref' }) }, null, 2);
      return [`${name}.schema.json`, `${text}\n`];
    }),
  );
}
