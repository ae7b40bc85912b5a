/** A worked example: the stored expert of a twin bench, step by step, with reasons and stops that ask what comes next. */
import type { Frame } from '../../engine/frame.ts';
import type { ControllerSettings, OutputId, Scenario, Tick, TimedInput } from '../../engine/types.ts';
import type { PathAct } from '../assessment/path.ts';
import type { Condition, DesignChoice, DesignTask } from '../commission/types.ts';
import type { Edit } from '../types.ts';

/**
 * The instant that a step stands at: an act of the expert (its place in the expert's path, and what it must be), a
 * moment, or a switching of an output; `lastSeen`: the last counted movement before it. `afterS` may be negative.
 */
export type When =
  | { act: number; is: string; afterS?: number }
  | { atS: number }
  | { switches: OutputId; on: boolean; nth?: number; lastSeen?: boolean; afterS?: number };

/** What somebody could do next, and what is said to it in four short parts. */
export interface ExampleOption {
  say: string;
  /** The way that the expert goes; one of each stop. */
  leads?: boolean;
  did: string;
  room: string;
  because: string;
  next: string;
}

export interface ExampleStop {
  question: string;
  options: ExampleOption[];
}

export interface ExampleStep {
  when: When;
  /** Of a design or commissioning: the room as found, or as the expert leaves it; absent: the expert's own run. */
  plan?: 'found' | 'best';
  /** A proving day of that room in place of its own run. */
  day?: string;
  /** Why; readings in braces come from the run: {clock}, {lastSeen + innerOffDelayS}, {next.clock}. */
  say: string;
  /** What must be so at this instant for the words to hold. */
  holds?: Condition[];
  stop?: ExampleStop;
}

export interface Example {
  /** What makes the twin bench, in place of the exercise's draws. */
  change?: Edit;
  /** Of a diagnosis: the cause that is true on the twin bench. */
  card?: string;
  /** Of a design: points of its own, and the choice that is best among them. */
  design?: DesignTask & { best: DesignChoice };
  steps: ExampleStep[];
}

/** A reading of the run, to be put into words. */
export type Fact =
  /** Seconds after local midnight. */
  | { is: 'clock'; s: number }
  | { is: 'length'; s: number }
  | { is: 'lx'; lx: number }
  | { is: 'count'; n: number }
  | { is: 'metres'; m: number }
  | { is: 'onOff'; on: boolean }
  | { is: 'doing'; act: Frame['people'][number]['act'] }
  | { is: 'state'; state: string }
  | { is: 'setting'; key: keyof ControllerSettings; value: unknown }
  | { is: 'act' | 'reading'; act: PathAct };

export interface WorkedScene {
  scenario: Scenario;
  inputs: TimedInput[];
}

export interface WorkedStep extends Omit<ExampleStep, 'when' | 'holds'> {
  /** Place among the scenes. */
  scene: number;
  tick: Tick;
  /** The readings that its words ask for, by name. */
  facts: Record<string, Fact>;
}

export interface WorkedExample {
  scenes: WorkedScene[];
  steps: WorkedStep[];
  /** Claims of the file that this run does not bear out; none, or the example must not be shown. */
  unmet: string[];
}
