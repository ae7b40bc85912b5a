/** Files of inputs for a run: by scenario time, as a person writes them, or a recording as the app saves it. */
import type { Scenario, TimedInput } from '../engine/types.ts';
import { secondsToTicks } from '../engine/units.ts';
import { checkInputs } from './checks.ts';
import { type Parsed, parseFile } from './parse.ts';
import { inputsFile, recordingFile } from './schemas/inputs.ts';

function isRecording(text: string): boolean {
  try {
    const value = JSON.parse(text) as { headTick?: unknown } | null;
    return typeof value === 'object' && value !== null && 'headTick' in value;
  } catch {
    return false;
  }
}

function parseInputs(text: string, fileName: string): Parsed<TimedInput[]> {
  if (isRecording(text)) {
    const recording = parseFile(recordingFile, text, fileName);
    return recording.ok ? { ok: true, value: recording.value.inputs } : recording;
  }
  const list = parseFile(inputsFile, text, fileName);
  if (!list.ok) return list;
  const inputs = list.value.inputs.map(({ atS, input }, serial) => ({ tick: secondsToTicks(atS), serial, input }));
  return { ok: true, value: inputs };
}

/** Inputs in their order of work, judged against the story they are meant for. */
export function loadInputs(text: string, fileName: string, scenario: Scenario): Parsed<TimedInput[]> {
  const parsed = parseInputs(text, fileName);
  if (!parsed.ok) return parsed;
  const sentences = checkInputs(
    fileName,
    scenario,
    parsed.value.map(({ input }) => input),
  );
  if (sentences.length > 0) return { ok: false, sentences };
  return { ok: true, value: parsed.value.sort((a, b) => a.tick - b.tick || a.serial - b.serial) };
}
