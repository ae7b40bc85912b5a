/** `compare SCENARIO --settings JSON`: one day under several settings. People are sensed once; the pulses are used again. */
import { digestOf } from '../engine/simulation.ts';
import type { TraceEvent } from '../engine/trace.ts';
import type { OutputId, Scenario, Tick } from '../engine/types.ts';
import { secondsToTicks, ticksToSeconds } from '../engine/units.ts';
import { OUTPUTS } from '../engine/view.ts';
import { type RunResult, runStored, runWithSettings } from '../exercise/storedRun.ts';
import { durationS, readArgs } from './args.ts';
import { readSettings, type SettingsChange } from './settingsArg.ts';
import { complain, storyFrom } from './stories.ts';

interface Order {
  scenario: Scenario;
  forS: number;
  changes: SettingsChange[];
}

/** Null after having complained. */
function readOrder(words: readonly string[]): Order | null {
  const read = readArgs(words, ['settings', 'for'], []);
  if (!read.ok) {
    complain([read.sentence]);
    return null;
  }
  const { plain, values } = read.args;
  const scenario = storyFrom(plain[0]);
  if (!scenario) return null;
  const forS = durationS(values.get('for') ?? `${scenario.endS}`);
  const settings = readSettings(values.get('settings') ?? '', scenario);
  const sentences = settings.ok ? [] : settings.sentences;
  if (forS === null || forS <= 0) {
    sentences.push(`--for expects a duration such as 90s, 5m or 24h, but is "${values.get('for')}".`);
  }
  if (plain.length > 1) sentences.push(`Expected one SCENARIO, but there is "${plain[1]}" too.`);
  complain(sentences);
  if (sentences.length > 0 || forS === null || !settings.ok) return null;
  return { scenario, forS, changes: settings.changes };
}

/** How long a contact was closed, s, and how often it opened. */
function useOf(events: readonly TraceEvent[], output: OutputId, endTick: Tick): { onS: number; offs: number } {
  let onTicks = 0;
  let offs = 0;
  let sinceTick: Tick | null = null;
  for (const event of events) {
    if (event.kind !== 'output' || event.output !== output) continue;
    if (sinceTick !== null && !event.on) {
      onTicks += event.tick - sinceTick;
      offs++;
    }
    sinceTick = event.on ? event.tick : null;
  }
  if (sinceTick !== null) onTicks += endTick - sinceTick;
  return { onS: ticksToSeconds(onTicks), offs };
}

function lineOf(change: SettingsChange, run: RunResult, endTick: Tick): string {
  const outputs = Object.fromEntries(OUTPUTS.map((output) => [output, useOf(run.events, output, endTick)]));
  const seen = run.events.filter((event) => event.kind === 'seen').length;
  return JSON.stringify({ settings: change, ...outputs, seen, digest: digestOf(run.state) });
}

/** Prints a line for the story as it stands and one for each change; how long each took goes to stderr. */
export function compare(words: string[]): number {
  const order = readOrder(words);
  if (!order) return 1;
  const { scenario, forS, changes } = order;
  const endTick = secondsToTicks(forS);
  const timed = (name: string, work: () => RunResult): RunResult => {
    const beganMs = performance.now();
    const run = work();
    process.stderr.write(`${name}: ${((performance.now() - beganMs) / 1000).toFixed(2)} s\n`);
    return run;
  };
  const sensed = timed('sensed', () => runStored(scenario, null, forS));
  console.log(lineOf({}, sensed, endTick));
  for (const change of changes) {
    const run = timed('pulses used again', () => runWithSettings(sensed.store, scenario, change, forS));
    if (run.sensedFromTick !== null) {
      process.stderr.write(
        `sensed again from ${ticksToSeconds(run.sensedFromTick)} s on: a mask changes what is seen\n`,
      );
    }
    console.log(lineOf(change, run, endTick));
  }
  return 0;
}
