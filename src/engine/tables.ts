/**
 * What can be worked out from scenario and setup alone, and takes long: lens and static scene of the detector, transfer
 * of light. Never part of the state. The last few are kept by key, so that seeking and undo never rebuild.
 */
import { buildMovementTables } from './detection/sense.ts';
import type { MovementTables } from './detection/types.ts';
import { canonicalJson } from './digest.ts';
import { buildLightTables, previewLightTables } from './light/light.ts';
import type { LightTables } from './light/types.ts';
import { staticWarmPatches } from './people/things.ts';
import type { Scenario, Setup } from './types.ts';

export interface Tables {
  movement: MovementTables;
  light: LightTables;
}

/** How many tables of each kind are kept. Assumed: more only costs memory (about 20 MB each), fewer make undo rebuild. */
const KEPT = 8;

function remembered<T>(kept: Map<string, T>, key: string, build: () => T): T {
  const known = kept.get(key);
  if (known !== undefined) {
    kept.delete(key);
    kept.set(key, known);
    return known;
  }
  const built = build();
  kept.set(key, built);
  const oldest = kept.keys().next();
  if (kept.size > KEPT && !oldest.done) kept.delete(oldest.value);
  return built;
}

const movementTables = new Map<string, MovementTables>();
const lightTables = new Map<string, LightTables>();

function lightKeyOf({ room, site, detectorModel }: Scenario, setup: Setup): string {
  const { mount, furniture, luminaires, reflectance, blinds } = setup;
  return canonicalJson([detectorModel, room, site, mount, furniture, luminaires ?? null, reflectance, blinds]);
}

/**
 * Coarse tables of light, for the picture while the true ones are being worked out; null where these are quick to get.
 * Nothing that is decided or noted may read them.
 */
export function previewLight(scenario: Scenario, setup: Setup): LightTables | null {
  if (lightTables.has(lightKeyOf(scenario, setup))) return null;
  return previewLightTables(scenario.room, scenario.site, setup, scenario.detectorModel);
}

export function tablesFor(scenario: Scenario, setup: Setup): Tables {
  const { room, site, detectorModel } = scenario;
  const { mount, furniture, doors, warmThings } = setup;
  const movementKey = canonicalJson([detectorModel, room, mount, furniture, doors, warmThings]);
  return {
    movement: remembered(movementTables, movementKey, () =>
      buildMovementTables(detectorModel, room, setup, staticWarmPatches(warmThings)),
    ),
    light: remembered(lightTables, lightKeyOf(scenario, setup), () =>
      buildLightTables(room, site, setup, detectorModel),
    ),
  };
}
