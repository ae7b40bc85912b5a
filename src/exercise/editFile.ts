/** A change as a file writes it, with its people's repeated steps written out. */
import { writtenOut } from '../scenario/plans.ts';
import type { EditFile } from '../scenario/schemas/edit.ts';
import type { Edit } from './types.ts';

export function editOf({ addPeople, ...rest }: EditFile): Edit {
  const people = addPeople?.map((person) => ({ ...person, plan: writtenOut(person.plan).map(({ step }) => step) }));
  return { ...rest, ...(people ? { addPeople: people } : {}) };
}
