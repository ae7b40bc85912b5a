/**
 * Contacts of wall buttons, and the supply, as instants in ms. Two closures of one input that overlap or touch are one:
 * the input only knows whether current flows. Later the solved circuit decides that; the edges stay.
 */
import type { ButtonId } from './types.ts';

export interface ContactEdge {
  tMs: number;
  input: ButtonId;
  closed: boolean;
}

export interface WiresState {
  /** To come, ordered by time; closing before opening at one instant, so touching closures merge. */
  contacts: ContactEdge[];
  supply: { tMs: number; on: boolean }[];
  /** How many fingers or contacts hold each input closed now. */
  depth: Record<ButtonId, number>;
}

export function createWires(): WiresState {
  return { contacts: [], supply: [], depth: { inner: 0, window: 0, air: 0 } };
}

function insertContact(wires: WiresState, edge: ContactEdge): void {
  const rank = (e: ContactEdge) => e.tMs * 2 + (e.closed ? 0 : 1);
  let at = wires.contacts.length;
  while (at > 0 && rank(wires.contacts[at - 1]!) > rank(edge)) at--;
  wires.contacts.splice(at, 0, edge);
}

export function closeFor(wires: WiresState, input: ButtonId, fromMs: number, closedMs: number): void {
  insertContact(wires, { tMs: fromMs, input, closed: true });
  insertContact(wires, { tMs: fromMs + closedMs, input, closed: false });
}

export function setContact(wires: WiresState, input: ButtonId, tMs: number, closed: boolean): void {
  insertContact(wires, { tMs, input, closed });
}

export function setSupply(wires: WiresState, tMs: number, on: boolean): void {
  wires.supply.push({ tMs, on });
  wires.supply.sort((a, b) => a.tMs - b.tMs);
}

const NONE: never[] = [];

/** Edges of the current due at or before `nowMs`; they leave the list. */
export function dueContacts(wires: WiresState, nowMs: number): ContactEdge[] {
  if (wires.contacts.length === 0 || wires.contacts[0]!.tMs > nowMs) return NONE;
  const edges: ContactEdge[] = [];
  while (wires.contacts.length > 0 && wires.contacts[0]!.tMs <= nowMs) {
    const edge = wires.contacts.shift()!;
    const before = wires.depth[edge.input];
    const after = Math.max(0, before + (edge.closed ? 1 : -1));
    wires.depth[edge.input] = after;
    if (before === 0 && after === 1) edges.push(edge);
    if (before === 1 && after === 0) edges.push(edge);
  }
  return edges;
}

export function dueSupply(wires: WiresState, nowMs: number): { tMs: number; on: boolean }[] {
  if (wires.supply.length === 0 || wires.supply[0]!.tMs > nowMs) return NONE;
  const due = wires.supply.filter((edge) => edge.tMs <= nowMs);
  wires.supply = wires.supply.filter((edge) => edge.tMs > nowMs);
  return due;
}
