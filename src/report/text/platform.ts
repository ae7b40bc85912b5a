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

const HERE = 'Nothing is lost: the work stays in this browser and can be saved as a file.';

/** One sentence or two for the job sheet; `exercise` and `seed`: what is open now. */
export function platformText(state: PlatformState, exercise: string, seed: number): string {
  const { refusal } = state;
  if (state.exercise !== exercise || state.seed !== seed) {
    return `The learning platform is told of bench ${state.seed} of the job that it opened, not of this one.`;
  }
  if (refusal) {
    const why = [refusal.code, refusal.text].filter((part) => part !== '').join(', ');
    return `The learning platform did not take ${refusal.call}${why ? ` (${why})` : ''}. ${HERE}`;
  }
  if (state.ended) return `The session with the learning platform has ended; open the job there again. ${HERE}`;
  if (state.elsewhere) {
    return 'The learning platform keeps the points only, the work was too long for it: open the saved attempt to carry on.';
  }
  if (!state.whole) {
    return 'The learning platform is told status and points. The work is too long for its memory: save the attempt to carry on at another machine.';
  }
  return 'The learning platform is told status and points of this job, and keeps the work.';
}
