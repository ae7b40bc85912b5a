/** `timelines FILE [--out FILE]`: the controller alone against what a file of timelines expects. */
import { writeFileSync } from 'node:fs';
import { readText } from './files.ts';
import { ShapeError } from './timelines/check.ts';
import { mismatches } from './timelines/compare.ts';
import { readTimelineFile } from './timelines/read.ts';
import { runTimeline } from './timelines/run.ts';
import type { Outcome, TimelineFile } from './timelines/types.ts';

const USAGE = 'timelines FILE [--out FILE]';

/** Runs the verb; result lines on stdout. Exit code: 0 all passed, 1 bad input or a mismatch. */
export function timelines(args: string[]): number {
  const { path, out, problem } = readArguments(args);
  if (path === null || problem !== null) return refuse(`${problem ?? 'expected a file of timelines'}. Usage: ${USAGE}`);
  const read = readText(path);
  if (!read.ok) return refuse(read.sentence);
  let file: TimelineFile;
  try {
    file = readTimelineFile(read.text);
  } catch (error) {
    if (error instanceof ShapeError) return refuse(`${path}: ${error.path}: ${error.expectation}.`);
    throw error;
  }
  const results = runAll(file);
  if (out !== null) {
    try {
      writeFileSync(
        out,
        `${JSON.stringify({ shape: 'timeline-results/1', engine: 'halflit', results: results.kept })}\n`,
      );
    } catch {
      return refuse(`${out}: expected a file that can be written.`);
    }
  }
  console.log(`${results.passed} passed, ${results.failed} failed`);
  return results.failed === 0 ? 0 : 1;
}

function runAll(file: TimelineFile): { passed: number; failed: number; kept: { id: string; result: Outcome }[] } {
  const kept: { id: string; result: Outcome }[] = [];
  let failed = 0;
  for (const timeline of file.timelines) {
    const result = runTimeline(timeline, file.defaults);
    kept.push({ id: timeline.id, result });
    const lines = mismatches(timeline, result);
    if (lines.length > 0) failed++;
    for (const line of lines) console.log(line);
  }
  return { passed: kept.length - failed, failed, kept };
}

function readArguments(args: string[]): { path: string | null; out: string | null; problem: string | null } {
  let path: string | null = null;
  let out: string | null = null;
  for (let i = 0; i < args.length; i++) {
    const arg = args[i]!;
    if (arg === '--out') {
      out = args[++i] ?? null;
      if (out === null) return { path, out, problem: 'expected a file name after --out' };
    } else if (arg.startsWith('--') || path !== null) {
      return { path, out, problem: `unknown argument ${arg}` };
    } else {
      path = arg;
    }
  }
  return { path, out, problem: null };
}

function refuse(sentence: string): number {
  console.error(sentence);
  return 1;
}
