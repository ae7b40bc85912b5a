/** Edits put onto a story, and the choice that the seed of a bench makes among them. */
import { hash32 } from '../engine/random.ts';
import type { DetectorModel, Scenario } from '../engine/types.ts';
import type { Edit, Exercise } from './types.ts';

function editedModel(model: DetectorModel, edit: Edit): DetectorModel {
  const { photometerClearShare } = edit;
  return photometerClearShare === undefined ? model : { ...model, photometerClearShare };
}

/** The story with one change; the story itself stays as it is. */
export function edited(scenario: Scenario, edit: Edit): Scenario {
  const { room, start } = scenario;
  return {
    ...scenario,
    start: { ...start, localDate: edit.localDate ?? start.localDate, localTime: edit.localTime ?? start.localTime },
    sky: edit.sky ?? scenario.sky,
    settings: { ...scenario.settings, ...edit.settings },
    mount: { ...scenario.mount, ...edit.mount },
    detectorModel: editedModel(scenario.detectorModel, edit),
    room: {
      ...room,
      airTemperatureC: edit.airTemperatureC ?? room.airTemperatureC,
      radiantTemperatureC: edit.airTemperatureC ?? room.radiantTemperatureC,
      doors: room.doors.map((door) => {
        const change = edit.doors?.find(({ doorId }) => doorId === door.id);
        return change ? { ...door, openAtStart: change.open } : door;
      }),
      furniture: [
        ...room.furniture.filter((piece) => !edit.removeFurniture?.includes(piece.id)),
        ...(edit.addFurniture ?? []),
      ],
    },
    people: [...scenario.people.filter((person) => !edit.removePeople?.includes(person.id)), ...(edit.addPeople ?? [])],
    warmThings: [...scenario.warmThings, ...(edit.addWarmThings ?? [])],
    script: [...scenario.script, ...(edit.script ?? [])].sort((a, b) => a.atS - b.atS),
  };
}

/** Which of `count` possibilities a seed picks in its `place`-th draw: the same everywhere, neighbours differ. */
export function drawn(seed: number, place: number, count: number): number {
  return hash32(`${seed}/${place}`) % count;
}

/** Of each list of draws, the edit that the seed picks; `place` is where the first list stands among all draws. */
export function drawnEdits(draws: readonly Edit[][], seed: number, place: number): Edit[] {
  return draws.map((list, i) => list[drawn(seed, place + i, list.length)] ?? {});
}

/** Where the room stops by itself, s. */
export function windowEndS(exercise: Exercise): number {
  switch (exercise.kind) {
    case 'predict':
      return exercise.predict.toS;
    case 'observe':
      return exercise.observe.toS;
    case 'diagnose':
      return exercise.scenario.endS;
    default:
      return exercise.commission.untilS ?? exercise.scenario.endS;
  }
}

/** The room of a bench: the exercise's story with what this seed draws, and with the seed's own gestures and clouds. */
export function benchScenario(exercise: Exercise, seed: number): Scenario {
  const scenario = drawnEdits(exercise.draws, seed, 0).reduce(edited, exercise.scenario);
  return { ...scenario, id: `${exercise.id}-${seed}`, seed, endS: windowEndS(exercise) };
}
