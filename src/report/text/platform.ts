/** Words about the learning platform that a job was opened in. */
import type { Refusal } from '../../exercise/scorm/visit.ts';

/** How a job stands with the learning platform. */
export interface PlatformState {
  /** The job and bench that it is told of. */
  exercise: string;
  seed: number;
  /** The platform's memory holds the work itself. */
  whole: boolean;
  /** Work of an earlier visit is neither at the platform nor in this browser. */
  elsewhere: boolean;
  refusal: Refusal | null;
  /** The session is over: the page was left in between. */
  ended: boolean;
}

/** What was refused, by the call or field of the standard. */
const refused: Record<string, string> = {
  LMSInitialize: 'open a session',
  LMSCommit: 'keep what it was told',
  'cmi.core.lesson_status': 'take the status of this job',
  'cmi.core.score.raw': 'take the points of this job',
  'cmi.suspend_data': 'take the work',
};

const HERE = 'Nothing is lost: the work stays in this browser and can be saved as a file.';

/** One sentence or two for the job sheet; `exercise` and `seed`: what is open now. */
export function platformText(state: PlatformState, exercise: string, seed: number): string {
  const { refusal } = state;
  if (state.exercise !== exercise || state.seed !== seed) {
    return `The learning platform is told of room ${state.seed} of the job that it opened, not of this one.`;
  }
  if (refusal) {
    const why = [refusal.call, refusal.code, refusal.text].filter((part) => part !== '').join(', ');
    return `The learning platform did not ${refused[refusal.call] ?? 'take all it was told'} (${why}). ${HERE}`;
  }
  if (state.ended) return `The session with the learning platform has ended; open the job there again. ${HERE}`;
  if (state.elsewhere) {
    return 'The learning platform keeps the points only, the work was too long for it: open the saved attempt to carry on.';
  }
  if (!state.whole) {
    return 'Status and points go to the learning platform. The work is too long for its memory: save the attempt to carry on at another machine.';
  }
  return 'Status, points and work of this job go to the learning platform.';
}
