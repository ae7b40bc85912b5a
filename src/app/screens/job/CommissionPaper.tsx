/** The paper of a commissioning: what is asked, what may be done, the proving run, and what is still to be shown. */
import { lazy, Suspense, useEffect, useRef, useState } from 'react';
import type { Scenario } from '../../../engine/types.ts';
import { directionsOf, edgeOf } from '../../../exercise/commission/edges.ts';
import { isOwn } from '../../../exercise/commission/ownCriteria.ts';
import type { CommissionExercise, Criterion } from '../../../exercise/commission/types.ts';
import type { ReachKind } from '../../../exercise/reach/types.ts';
import { commissionWords, verdictWord } from '../../../report/text/commission.ts';
import { clockAt } from '../../../report/text/format.ts';
import { SkyPanel } from '../../panels/SkyPanel.tsx';
import ui from '../../panels/ui.module.css';
import { WordChoice } from '../../panels/ui.tsx';
import {
  asksWalkTest,
  isProved,
  isReady,
  prove,
  setHandover,
  takeClip,
  useCommissioning,
} from '../../state/job/commission.ts';
import { useApp } from '../../state/store.ts';
import { useWalkTest } from '../../state/walkTest.ts';
import styles from './Commission.module.css';
import { CommissionResult } from './CommissionResult.tsx';
import { DesignTools } from './DesignTools.tsx';
import { OpenSettings } from './OpenSettings.tsx';
import { LineText, ProvedTable } from './ProvedTable.tsx';
import parts from './parts.module.css';
import { Foot, HandIn, Hints, Names, Reasons } from './parts.tsx';

const KitBag = lazy(async () => ({ default: (await import('../../panels/kit/KitBag.tsx')).KitBag }));
const DeskFactor = lazy(async () => ({ default: (await import('../../panels/kit/DeskFactor.tsx')).DeskFactor }));

export function CommissionPaper() {
  const exercise = useCommissioning((s) => s.exercise);
  const scenario = useApp((s) => s.scenario);
  const stage = useApp((s) => s.job?.stage);
  if (!exercise || !scenario) return null;
  if (stage === 'result') {
    return (
      <>
        <CommissionResult exercise={exercise} scenario={scenario} />
        <Reasons />
      </>
    );
  }
  return <Working exercise={exercise} scenario={scenario} />;
}

interface PartProps {
  exercise: CommissionExercise;
  scenario: Scenario;
}

function Working({ exercise, scenario }: PartProps) {
  const busy = useCommissioning((s) => s.share !== null);
  const toProve = exercise.commission.days.length > 0;
  const ready = useCommissioning(isReady);
  const walked = useWalkTest((s) => !asksWalkTest(exercise) || s.points.length > 0);
  return (
    <>
      <p className={parts.brief}>{exercise.brief}</p>
      <Asked exercise={exercise} />
      <Tools exercise={exercise} />
      {toProve && <Proved exercise={exercise} />}
      <ToShow exercise={exercise} scenario={scenario} />
      <Hints exercise={exercise} />
      <Names />
      {exercise.aid !== 'test' && <Reasons />}
      <Foot>
        {toProve && <Prove />}
        <HandIn next={ready && walked} disabled={busy} />
      </Foot>
    </>
  );
}

function Asked({ exercise }: { exercise: CommissionExercise }) {
  return (
    <table className={styles.asked} aria-label={commissionWords.asked}>
      <tbody>
        {exercise.commission.asked.map(({ what, value }) => (
          <tr key={what}>
            <th scope="row">{what}</th>
            <td>{value}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

type Tool = keyof typeof commissionWords.panel;

/** Only what this job lets somebody do. */
function toolsOf({ commission, design }: CommissionExercise): Tool[] {
  const { allows, settings } = commission;
  const light = settings.includes('innerDeskFactor') || settings.includes('innerSetpointLx');
  return [
    ...(design ? (['plan'] as const) : []),
    ...(settings.length > 0 ? (['set'] as const) : []),
    ...(light ? (['factor'] as const) : []),
    ...(allows.includes('setSky') || allows.includes('moveSun') ? (['sky'] as const) : []),
    'kit',
  ];
}

function Tools({ exercise }: { exercise: CommissionExercise }) {
  const tools = toolsOf(exercise);
  const [tool, setTool] = useState<Tool>(tools[0] ?? 'kit');
  const section = useRef<HTMLElement>(null);
  const walks = exercise.commission.criteria.some(({ kind }) => kind === 'walkPoints');
  // On a low window the words of the tools stand at the lower edge: what was chosen must not stay below it.
  const choose = (chosen: Tool): void => {
    setTool(chosen);
    section.current?.scrollIntoView({ block: 'start' });
  };
  return (
    <section ref={section} aria-label={commissionWords.panels}>
      <WordChoice
        label={commissionWords.panels}
        options={tools.map((value) => ({ value, text: commissionWords.panel[value] }))}
        chosen={tool}
        choose={choose}
        className={ui.row}
      />
      {tool === 'plan' && exercise.design && <DesignTools points={exercise.design.points} />}
      {tool === 'set' && <OpenSettings settings={exercise.commission.settings} />}
      {tool === 'sky' && <SkyPanel />}
      <Suspense fallback={null}>
        {tool === 'kit' && <KitBag {...(walks ? { first: 'reach' } : {})} />}
        {tool === 'factor' && <DeskFactor />}
      </Suspense>
    </section>
  );
}

function Prove() {
  const share = useCommissioning((s) => s.share);
  const done = useCommissioning(isProved);
  const ready = useApp((s) => s.readiness === 'ready' && s.setup !== null && s.settings !== null);
  if (share === null) {
    return (
      <button type="button" className={done ? ui.plain : parts.primary} disabled={!ready} onClick={() => void prove()}>
        {commissionWords.prove}
      </button>
    );
  }
  return (
    <p className={styles.progress}>
      <progress value={share} aria-label={commissionWords.proving} />
      <span>{commissionWords.provedShare(share)}</span>
    </p>
  );
}

function Proved({ exercise }: { exercise: CommissionExercise }) {
  const result = useCommissioning((s) => s.result);
  const outdated = useCommissioning((s) => s.outdated);
  const section = useRef<HTMLElement>(null);
  // Proved from the foot of the paper: what came of it must not stay out of sight.
  useEffect(() => {
    if (!result) return;
    section.current?.scrollIntoView({ block: 'start' });
    // The button that was pressed made room for the progress: whoever works by key goes on from here.
    if (document.activeElement === document.body) section.current?.focus({ preventScroll: true });
  }, [result]);
  return (
    <section ref={section} tabIndex={-1} aria-label={commissionWords.table} className={styles.prove}>
      <p className={ui.note}>{commissionWords.proveNote(exercise.commission.days)}</p>
      {result && outdated && (
        <p role="status">{exercise.design ? commissionWords.otherPlan : commissionWords.outdated}</p>
      )}
      {result && <ProvedTable days={result.days} />}
    </section>
  );
}

/** Every criterion, with what is known of it so far. In a test the room says nothing about itself. */
function ToShow({ exercise, scenario }: PartProps) {
  return (
    <section aria-label={commissionWords.criteria}>
      <h3>{commissionWords.criteria}</h3>
      <ul className={styles.criteria}>
        {exercise.commission.criteria.map((criterion) => (
          <li key={criterion.id}>
            <p className={styles.criterion}>
              <b>{criterion.title}</b> <b>{criterion.points}</b>
            </p>
            <State criterion={criterion} scenario={scenario} exercise={exercise} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function State({ criterion, exercise, scenario }: PartProps & { criterion: Criterion }) {
  const { kind, id, title } = criterion;
  const clip = useCommissioning((s) => s.clips.find((one) => one.criterion === id) ?? null);
  const proved = useCommissioning(isProved);
  const line = useCommissioning((s) => s.result?.lines.find((one) => one.id === id) ?? null);
  const outdated = useCommissioning((s) => s.outdated);
  if (kind === 'clip') {
    return (
      <p className={styles.clip}>
        <button
          type="button"
          className={ui.plain}
          aria-label={commissionWords.clipFor(title)}
          onClick={() => takeClip(id)}
        >
          {commissionWords.clip}
        </button>
        <span>{clip ? commissionWords.clipped(clockAt(clip.tick, scenario.start)) : commissionWords.notYet}</span>
      </p>
    );
  }
  if (kind === 'handover') return <Handover />;
  if (kind === 'walkPoints' || kind === 'sectors' || kind === 'outline') return <Noted criterion={criterion} />;
  if (isOwn(criterion)) return <p>{proved ? verdictWord.met : commissionWords.notProved}</p>;
  if (exercise.aid === 'test') return null;
  if (!line || outdated) return <p className={ui.note}>{commissionWords.notProved}</p>;
  return <LineText line={line} exercise={exercise} scenario={scenario} />;
}

/** What the notebook holds so far; how good it is comes out when it is handed in. */
function Noted({ criterion }: { criterion: Criterion }) {
  const points = useWalkTest((s) => s.points.length);
  if (criterion.kind === 'outline') return <Marked movement={criterion.movement} />;
  return <p className={ui.note}>{commissionWords.noted(points)}</p>;
}

/** The edge as the notebook alone shows it: nobody should be surprised by points that do not count. */
function Marked({ movement }: { movement: ReachKind }) {
  const points = useWalkTest((s) => s.points);
  const marked = useWalkTest((s) => s.edge[movement]);
  const room = useApp((s) => s.scenario?.room);
  const mount = useApp((s) => s.setup?.mount);
  const counted = room && mount ? edgeOf(points, marked, movement, mount.atM, room).counted : [];
  return (
    <p className={ui.note}>
      {commissionWords.onEdge(marked.length)}
      {marked.length > 0 && mount && commissionWords.countSoFar(counted.length, directionsOf(counted, mount))}
    </p>
  );
}

function Handover() {
  const text = useCommissioning((s) => s.handover);
  return (
    <>
      <textarea
        className={styles.handover}
        aria-label={commissionWords.handover}
        value={text}
        rows={5}
        onChange={(e) => setHandover(e.target.value)}
      />
      <p className={ui.note}>{commissionWords.handoverNote}</p>
    </>
  );
}
