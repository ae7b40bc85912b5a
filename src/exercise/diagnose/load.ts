/** Fault cards read from their file, and candidates of an exercise: a card with what belongs to this room. */
import type { Library } from '../../scenario/library.ts';
import { type Parsed, parseFile } from '../../scenario/parse.ts';
import type { EditFile } from '../../scenario/schemas/edit.ts';
import { type CandidateFile, type FaultCardFile, faultsFile } from '../../scenario/schemas/faults.ts';
import { sentence } from '../../scenario/sentences.ts';
import { editOf } from '../editFile.ts';
import type { Edit } from '../types.ts';
import type { Candidate, FaultCard } from './types.ts';

const FILE = 'faults.json';

function cardOf({ edit, draws, ...rest }: FaultCardFile): FaultCard {
  return { ...rest, edit: edit ? editOf(edit) : {}, draws: (draws ?? []).map((list) => list.map(editOf)) };
}

/** Cards as their file writes them. */
export function cardFiles(library: Library): Parsed<FaultCardFile[]> {
  const text = library.texts.get(FILE);
  if (text === undefined) return { ok: false, sentences: [`${FILE}: expected this file, but there is none.`] };
  const parsed = parseFile(faultsFile, text, FILE);
  return parsed.ok ? { ok: true, value: parsed.value.cards } : parsed;
}

/** All cards of the library by id. */
export function loadCards(library: Library): Parsed<ReadonlyMap<string, FaultCard>> {
  const files = cardFiles(library);
  if (!files.ok) return files;
  const cards = files.value.map(cardOf);
  const twice = cards.findIndex((card, i) => cards.findIndex(({ id }) => id === card.id) < i);
  if (twice >= 0) {
    return { ok: false, sentences: [sentence(FILE, ['cards', twice, 'id'], 'an id of its own', cards[twice]!.id)] };
  }
  return { ok: true, value: new Map(cards.map((card) => [card.id, card])) };
}

/** Both changes, one after the other; lists of the room's own come after the card's. */
export function both<E extends Edit | EditFile>(card: E, own: E): E {
  const joined: E = { ...card, ...own };
  if (card.settings && own.settings) joined.settings = { ...card.settings, ...own.settings };
  if (card.mount && own.mount) joined.mount = { ...card.mount, ...own.mount };
  if (card.script && own.script) joined.script = [...card.script, ...own.script];
  return joined;
}

/** Two causes at once: every way to be rid of the one with every way to be rid of the other. The proof is the second's. */
function pair(one: FaultCard, other: FaultCard): FaultCard {
  return {
    id: `${one.id}-and-${other.id}`,
    title: `${one.title} and ${other.title[0]!.toLowerCase()}${other.title.slice(1)}`,
    healthy: false,
    complaints: [...one.complaints, ...other.complaints],
    edit: both(one.edit, other.edit),
    draws: [...one.draws, ...other.draws],
    remedy: one.remedy.flatMap((way) => other.remedy.map((next) => [...way, ...next])),
    repair: [...one.repair, ...other.repair],
    proof: other.proof,
    because: `${one.because} ${other.because}`,
  };
}

function candidate({ prior, edit, draws, remedy, repair, proof }: CandidateFile, card: FaultCard): Candidate {
  return {
    prior,
    card: {
      ...card,
      edit: edit ? both(card.edit, editOf(edit)) : card.edit,
      draws: draws ? draws.map((list) => list.map(editOf)) : card.draws,
      remedy: remedy ?? card.remedy,
      repair: repair ?? card.repair,
      proof: proof ?? card.proof,
    },
  };
}

/** Candidates of an exercise. `fileName` only appears in sentences. */
export function candidatesOf(
  files: readonly CandidateFile[],
  fileName: string,
  cards: ReadonlyMap<string, FaultCard>,
): Parsed<Candidate[]> {
  const known = [...cards.keys()].join(', ');
  const sentences = files.flatMap((file, i) =>
    (['card', 'and'] as const).flatMap((key) => {
      const id = file[key];
      if (id === undefined || cards.has(id)) return [];
      return [sentence(fileName, ['diagnose', 'candidates', i, key], `a card of ${FILE} (${known})`, id)];
    }),
  );
  if (sentences.length > 0) return { ok: false, sentences };
  const cardOfFile = ({ card, and }: CandidateFile): FaultCard =>
    and === undefined ? cards.get(card)! : pair(cards.get(card)!, cards.get(and)!);
  return { ok: true, value: files.map((file) => candidate(file, cardOfFile(file))) };
}
