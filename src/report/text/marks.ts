/**
 * Words of a diagnosis's marks: what you did, what the room showed, because, and what to do next. No praise, no
 * "wrong", at most sixty words a line; numbers come with the line.
 */
import type { DiagnoseLine, ProofId, RecordSlot, Test } from '../../exercise/diagnose/types.ts';
import type { MarkPart, SearchSignatureId } from '../../exercise/types.ts';
import { minuteSecond } from './format.ts';
import { buttonName, outputInSentence } from './names.ts';

export const partName: Record<MarkPart['id'], string> = {
  prediction: 'Prediction',
  observation: 'Observation',
  safe: 'Safe working',
  strategy: 'Choice of tests',
  efficiency: 'Minutes',
  evidence: 'Evidence before the verdict',
  repair: 'Repair',
  proof: 'Proof of repair',
  record: 'Record',
  position: 'Place of the detector',
  orientation: 'Turn of the detector',
  light: 'Brightness',
  delays: 'Delays',
  walkTest: 'Walk-test',
  functional: 'What the room does',
  handover: 'Proof and handover',
};

/** A test inside a sentence. */
export function testName(test: Test): string {
  switch (test.instrument) {
    case 'ask':
      return 'asking the client';
    case 'drawing':
      return 'the drawing';
    case 'look':
      return 'a look from below';
    case 'repeat':
      return 'the complaint repeated';
    case 'settings':
      return 'reading a setting';
    case 'handHeld':
      return 'the hand-held setter';
    case 'luxMeter':
      return 'the lux meter';
    case 'thermometer':
      return 'the thermometer';
    case 'seenAt':
      return 'moving at a place';
    case 'stopwatch':
      return `the stopwatch on ${outputInSentence(test.output)}`;
    case 'button':
      return `a press of the ${buttonName[test.button].toLowerCase()}`;
    case 'log':
      return 'the log';
    case 'watch':
      return 'leaving the room alone';
    case 'cloth':
      return 'the cover cloth';
    case 'torch':
      return `a torch from the ${test.side === 'window' ? 'window' : 'inner'} side`;
  }
}

export const proofName: Record<ProofId, string> = {
  complaint: 'the complaint repeated',
  movement: 'a movement seen',
  buttons: 'one press of each light button',
  offDelay: 'one full off-delay',
  special: "this cause's own proof",
};

export const slotName: Record<RecordSlot, string> = {
  symptom: 'symptom',
  isolation: 'isolation (nothing of the mains was touched)',
  readingsBefore: 'readings before',
  cause: 'cause',
  remedy: 'remedy',
  readingsAfter: 'readings after',
  settingsLeft: 'settings left',
  testTimes: 'times of the tests',
  advice: 'advice to the client (marked by the lecturer)',
  name: 'name',
};

const minutes = (n: number): string => `${n} min`;

/** One line of a diagnosis's mark. */
export function diagnoseSentence(say: DiagnoseLine): string {
  switch (say.code) {
    case 'safeNoMains':
      return 'No mains part had to be touched in this job.';
    case 'testTold':
      return `You used ${testName(say.test)} (${minutes(say.minutes)}). It ruled out ${say.dropped}; ${say.left} of ${say.of} still fit.`;
    case 'testToldNothing':
      return `You used ${testName(say.test)} (${minutes(say.minutes)}). All ${say.left} causes still possible would have shown the same. Next: choose a reading in which they differ.`;
    case 'hintsUsed':
      return `Hints opened: ${say.count}. ${say.cost > 0 ? `They take ${say.cost} points of test strategy.` : 'They cost nothing in practice.'}`;
    case 'minutesSpent':
      return `Your tests took ${minutes(say.minutes)}; a path of best next tests takes ${minutes(say.referenceMin)}.`;
    case 'claimRight':
      if (say.certain === 'certain') return `You named: ${say.card}. Your readings leave nothing else. ${say.because}`;
      return `You named: ${say.card}. It was so, but your readings left other causes standing. ${say.because} Next: take a reading that parts them before you name one.`;
    case 'claimWrong':
      return `You named: ${say.card}. The room had: ${say.trueCard}. ${say.because} Next: ask which of your readings the named cause would have changed.`;
    case 'claimMissing':
      return `No cause was named. The room had: ${say.trueCard}. ${say.because}`;
    case 'remedyDone':
      return 'What caused the complaint is put right.';
    case 'remedyMissing':
      return 'What caused the complaint still stands as it was found.';
    case 'nothingToRepair':
      return 'There was nothing to repair, and it was left so.';
    case 'swapNeedless':
      return 'You replaced the detector. Nothing in it was broken. Next: test before changing a part.';
    case 'leftChanged':
      return `Left changed without need: ${say.what}. Next: put back what you only tried.`;
    case 'proofDone':
      return `Shown in the room as it was left: ${proofName[say.proof]}.`;
    case 'proofMissing':
      return `Not shown in the room as it was left: ${proofName[say.proof]}.`;
    case 'proofShort':
      return 'For a pass at least three of these are shown, the complaint played again among them.';
    case 'complaintRemains':
      return `The same visit was played again: the complaint was there for ${minuteSecond(say.timeS)}.`;
    case 'uncertainBeforeRepair':
      return 'You changed the installation while other causes still fitted: the total stays at 60 or less.';
    case 'recordFilled':
      return `In the record: ${slotName[say.slot]}.`;
    case 'recordEmpty':
      return `Missing in the record: ${slotName[say.slot]}.`;
  }
}

/** Beliefs that show in how somebody looks for a fault. */
export const searchBelief: Record<SearchSignatureId, string> = {
  replaceFirst:
    'A part was replaced before any reading told causes apart. The new part shows the same symptom or hides it. Next: measure first.',
  goneMeansFixed: 'The job was handed in without the complaint being repeated. Next: same walk, same light, once more.',
  faultOnHealthy:
    'The room did what it is set to do. Next: compare what it shows with its settings before calling it broken.',
};
