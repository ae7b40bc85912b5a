/** Answers that are asked for now and then: the day's light, the sun's ways, the year. Lazy: loaded with who asks. */
import { useEffect } from 'react';
import { create } from 'zustand';
import type { DayLight } from '../../engine/dayLight.ts';
import type { ControllerSettings, Setup } from '../../engine/types.ts';
import type { Client } from '../../host/client.ts';
import type { FromWorker, SunPaths, YearResult } from '../../host/messages.ts';
import { openWorker } from './connect.ts';
import { onAnswer } from './session.ts';
import { getApp, useApp } from './store.ts';
import { send } from './wire.ts';

export interface InsightState {
  day: { share: number; light: DayLight | null; failed: boolean };
  sunPaths: SunPaths | null;
  year: {
    doing: 'nothing' | 'working' | 'stopped' | 'done' | 'failed';
    share: number;
    result: YearResult | null;
    /** What the figures belong to. */
    madeFor: string;
  };
}

const NO_YEAR: InsightState['year'] = { doing: 'nothing', share: 0, result: null, madeFor: '' };

export const useInsight = create<InsightState>()(() => ({
  day: { share: 0, light: null, failed: false },
  sunPaths: null,
  year: NO_YEAR,
}));

const set = useInsight.setState;

let asked = 0;
let dayAsked = 0;
let pathsAsked = 0;
let yearAsked = 0;
let listening = false;

function hear(message: FromWorker): void {
  if (message.type === 'dayLight' && message.requestId === dayAsked) {
    set((s) => ({ day: { share: message.share, light: message.day ?? s.day.light, failed: false } }));
  } else if (message.type === 'sunPaths' && message.requestId === pathsAsked) {
    set({ sunPaths: message.paths });
  }
}

function listenOnce(): void {
  if (listening) return;
  listening = true;
  onAnswer(hear);
}

/** The day's light anew; the last one stays on screen until the new one is there. */
export function askDay(): void {
  listenOnce();
  dayAsked = ++asked;
  set((s) => ({ day: { ...s.day, share: 0 } }));
  send({ type: 'wantDay', requestId: dayAsked });
}

export function leaveDay(): void {
  dayAsked = 0;
  send({ type: 'wantDay', requestId: null });
}

function askSunPaths(): void {
  listenOnce();
  pathsAsked = ++asked;
  send({ type: 'wantSunPaths', requestId: pathsAsked });
}

/** The ways of the sun's date, asked anew for another date or story. */
export function useSunPaths(): SunPaths | null {
  const date = useApp((s) => s.setup?.sunLocalDate ?? '');
  const id = useApp((s) => s.scenario?.id ?? '');
  // biome-ignore lint/correctness/useExhaustiveDependencies: another date or story has other ways
  useEffect(() => {
    if (date) askSunPaths();
  }, [date, id]);
  return useInsight((s) => s.sunPaths);
}

/** All that a year depends on, as text: place, room, detector, settings, people of the story. Sun and sky of now do not count. */
export function yearKey(
  scenarioId: string | undefined,
  setup: Setup | null,
  settings: ControllerSettings | null,
): string {
  if (!setup) return '';
  const { sky: _sky, sunShiftS: _shift, sunLocalDate, ...room } = setup;
  return JSON.stringify([scenarioId, sunLocalDate.slice(0, 4), room, settings]);
}

let yearClient: Client | null = null;

function hearYear(message: FromWorker): void {
  if (message.type === 'failed') {
    set((s) => ({ year: { ...s.year, doing: 'failed' } }));
    closeYear();
    return;
  }
  if (message.type !== 'year' || message.requestId !== yearAsked) return;
  const { share, done, result } = message;
  set((s) => ({ year: { ...s.year, share, doing: done ? 'done' : 'working', result: result ?? s.year.result } }));
  if (done) closeYear();
}

function closeYear(): void {
  yearClient?.close();
  yearClient = null;
}

/** Works the year out in a worker of its own: the run beside it keeps its pace and knows nothing of it. */
export async function startYear(): Promise<void> {
  const { scenario, setup, settings } = getApp();
  if (!scenario || !setup || !settings) return;
  closeYear();
  const requestId = ++asked;
  yearAsked = requestId;
  const madeFor = yearKey(scenario.id, setup, settings);
  set({ year: { doing: 'working', share: 0, result: null, madeFor } });
  const client = await openWorker();
  if (yearAsked !== requestId) {
    client.close();
    return;
  }
  yearClient = client;
  client.onMessage(hearYear);
  client.send({ type: 'wantYear', requestId, order: { scenario, setup, settings } });
}

export function stopYear(): void {
  if (useInsight.getState().year.doing !== 'working') return;
  yearAsked = ++asked;
  closeYear();
  set((s) => ({ year: { ...s.year, doing: 'stopped' } }));
}
