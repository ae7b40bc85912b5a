/** Questions about the past that take a while: worked bit by bit between the ticks of the run. */
import type { Tick } from '../engine/types.ts';
import { type Bit, sightsWork, signalWork } from './lookBack.ts';
import type { FromWorker } from './messages.ts';
import type { Post } from './outbox.ts';
import { SLICE_MS } from './pacing.ts';
import type { Session } from './session.ts';

type Kind = 'signal' | 'sights';

export interface Question {
  kind: Kind;
  bit: Bit;
  /** The answer, once there is nothing left to do. */
  post: (post: Post) => void;
}

/** One of a kind: a page that asks again no longer needs the answer before. */
export type Questions = Question[];

function ask(questions: Questions, question: Question): void {
  const at = questions.findIndex((q) => q.kind === question.kind);
  if (at >= 0) questions.splice(at, 1);
  questions.push(question);
}

export function askSignal(questions: Questions, session: Session, id: number, fromTick: Tick, toTick: Tick): void {
  const { stretch, bit } = signalWork(session, fromTick, toTick);
  const message: FromWorker = { type: 'signal', requestId: id, stretch };
  ask(questions, { kind: 'signal', bit, post: (post) => post(message, [stretch.signalUv.buffer as ArrayBuffer]) });
}

export function askSights(questions: Questions, session: Session, id: number, shown: Tick): void {
  const { tick, bit, answers } = sightsWork(session, shown);
  ask(questions, {
    kind: 'sights',
    bit,
    post: (post) => post({ type: 'sights', requestId: id, tick, people: answers() }),
  });
}

/** Works one slice, the oldest question first. Returns whether there is more to do. */
export function workQuestions(questions: Questions, clock: () => number, post: Post): boolean {
  const startMs = clock();
  while (clock() - startMs < SLICE_MS) {
    const question = questions[0];
    if (!question) return false;
    if (question.bit()) continue;
    questions.shift();
    question.post(post);
  }
  return questions.length > 0;
}
