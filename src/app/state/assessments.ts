/** Assessor's sheets by the seal of their attempt, kept in this browser at every change. */
import { create } from 'zustand';
import { type Assessment, isBlank, isSame, NO_ASSESSMENT, wholeTotal } from '../../exercise/assessment/assessment.ts';
import { assessmentText, readAssessment, strangeCriteria } from '../../exercise/assessment/file.ts';
import type { Graded } from '../../exercise/classTable.ts';
import type { Mark } from '../../exercise/types.ts';
import { assessmentWords as words } from '../../report/text/assessment.ts';
import { offerFile } from './attempts.ts';
import { exerciseTitle } from './exercises.ts';
import { setApp } from './store.ts';

const KEY = 'halflit/assessment/';

interface Sheets {
  bySeal: ReadonlyMap<string, Assessment>;
  /** Seal of the attempt whose sheet is open. */
  open: string | null;
}

export const useSheets = create<Sheets>()(() => ({ bySeal: new Map(), open: null }));

/** Null: none, or one that cannot be read any more. */
function kept(seal: string): Assessment | null {
  try {
    const text = localStorage.getItem(KEY + seal);
    return text === null ? null : (JSON.parse(text) as Assessment);
  } catch {
    return null;
  }
}

export function sheetOf(seal: string): Assessment {
  return useSheets.getState().bySeal.get(seal) ?? kept(seal) ?? NO_ASSESSMENT;
}

function show(seal: string, sheet: Assessment): void {
  useSheets.setState((s) => ({ bySeal: new Map(s.bySeal).set(seal, sheet) }));
}

/** Brings back what was kept of these attempts' sheets. */
export function bringSheets(seals: readonly string[]): void {
  for (const seal of seals) show(seal, sheetOf(seal));
}

export function keepSheet(seal: string, sheet: Assessment): void {
  show(seal, sheet);
  try {
    if (isBlank(sheet)) localStorage.removeItem(KEY + seal);
    else localStorage.setItem(KEY + seal, JSON.stringify(sheet));
  } catch {
    setApp({ notice: words.notKept });
  }
}

export function openSheet(seal: string | null): void {
  useSheets.setState({ open: seal });
}

export function saveSheet({ attempt, mark, seal }: Graded): void {
  const text = assessmentText(attempt, mark, sheetOf(seal));
  offerFile(`${attempt.exercise}-bench-${attempt.seed}-sheet.json`, text, 'application/json');
}

/** Both computed marks, where they differ: another version marks, or another job by the same name. */
function remarkOnSheet(totalThen: number, mark: Mark): string[] {
  const [then, now] = [wholeTotal(totalThen), wholeTotal(mark.total)];
  return then === now ? [] : [words.otherMark(then, now)];
}

/** Puts the sheet of a file in the place of this attempt's, if it belongs there; a sentence either way. */
export async function openSheetFile(file: File, { seal, mark }: Graded): Promise<{ taken: boolean; say: string }> {
  const read = readAssessment(await file.text(), file.name);
  if (!read.ok) return { taken: false, say: read.sentences.join(' ') };
  const { attempt, exercise, seed, names, assessment, total } = read.value;
  if (attempt !== seal)
    return { taken: false, say: words.notThisAttempt(file.name, exerciseTitle(exercise), seed, names) };
  const strange = strangeCriteria(read.value, mark);
  if (strange.length > 0) return { taken: false, say: words.otherCriteria(file.name, strange) };
  keepSheet(seal, assessment);
  return { taken: true, say: [words.opened(file.name), ...remarkOnSheet(total, mark)].join(' ') };
}

/** Takes a sheet that came with the attempts of a class; a sentence when it has no place. */
export function takeSheet(text: string, fileName: string, graded: readonly Graded[]): string[] {
  const read = readAssessment(text, fileName);
  if (!read.ok) return read.sentences;
  const { attempt, exercise, seed, assessment, total } = read.value;
  const one = graded.find(({ seal }) => seal === attempt);
  if (!one) return [words.noAttempt(fileName, exerciseTitle(exercise), seed)];
  const strange = strangeCriteria(read.value, one.mark);
  if (strange.length > 0) return [words.otherCriteria(fileName, strange)];
  const here = sheetOf(attempt);
  if (!isBlank(here) && !isSame(here, assessment)) return [words.hereAlready(fileName)];
  keepSheet(attempt, assessment);
  return remarkOnSheet(total, one.mark).map((remark) => `${fileName}: ${remark}`);
}
