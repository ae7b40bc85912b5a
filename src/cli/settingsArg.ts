/** --settings: changes of a controller's settings as JSON, one object or a list of them, judged like any input. */
import type { ControllerSettings, Scenario } from '../engine/types.ts';
import { loadInputs } from '../scenario/inputs.ts';

export type SettingsChange = Partial<ControllerSettings>;
export type ReadSettings = { ok: true; changes: SettingsChange[] } | { ok: false; sentences: string[] };

const EXPECTED = '--settings expects JSON such as {"innerOffDelayS":600}, or a list of such in square brackets';

/** At least one change; sentences say which name or value is not one of a controller. */
export function readSettings(text: string, scenario: Scenario): ReadSettings {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return { ok: false, sentences: [`${EXPECTED}, but "${text}" is no JSON.`] };
  }
  const list = Array.isArray(value) ? value : [value];
  if (list.length === 0) return { ok: false, sentences: [`${EXPECTED}, but the list is empty.`] };
  const inputs = list.map((change) => ({ atS: 0, input: { kind: 'setSettings', change } }));
  const loaded = loadInputs(JSON.stringify({ format: 1, inputs }), '--settings', scenario);
  if (!loaded.ok) return loaded;
  const changes = loaded.value.flatMap(({ input }) => (input.kind === 'setSettings' ? [input.change] : []));
  return { ok: true, changes };
}
