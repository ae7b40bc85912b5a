/** The case notebook: attempts that were passed, each with its mark, kept in this browser; cards are made from them. */
import { create } from 'zustand';
import { attemptText, readAttempt } from '../../exercise/attempt.ts';
import type { Attempt, Mark } from '../../exercise/types.ts';
import { notebookWords } from '../../report/text/notebook.ts';
import { setApp } from './store.ts';

const KEY = 'halflit/notebook';

export interface Case {
  attempt: Attempt;
  mark: Mark;
}

/** As it is stored: the attempt sealed, as in its file. */
interface Stored {
  attempt: string;
  mark: Mark;
}

/** Cases that can be read; others are left out. */
function stored(): Case[] {
  try {
    const list = JSON.parse(localStorage.getItem(KEY) ?? '[]') as Stored[];
    return list.flatMap(({ attempt, mark }) => {
      const read = readAttempt(attempt, 'kept case');
      return read.ok ? [{ attempt: read.value, mark }] : [];
    });
  } catch {
    return [];
  }
}

export const useNotebook = create<{ cases: Case[] }>()(() => ({ cases: stored() }));

/** False when the browser refuses to store; the cases stand until the page is left. */
function keep(cases: Case[]): boolean {
  useNotebook.setState({ cases });
  try {
    const list = cases.map(({ attempt, mark }): Stored => ({ attempt: attemptText(attempt), mark }));
    localStorage.setItem(KEY, JSON.stringify(list));
    return true;
  } catch {
    return false;
  }
}

const isSame = (a: Attempt, b: Attempt): boolean => a.exercise === b.exercise && a.seed === b.seed;

/** Newest first; the same bench again takes the place of its older card. */
export function intoNotebook(attempt: Attempt, mark: Mark): void {
  const others = useNotebook.getState().cases.filter((one) => !isSame(one.attempt, attempt));
  if (!keep([{ attempt, mark }, ...others])) setApp({ notice: notebookWords.notKept });
}

export function removeCase({ attempt }: Case): void {
  keep(useNotebook.getState().cases.filter((one) => !isSame(one.attempt, attempt)));
}
