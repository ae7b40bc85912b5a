/** The Walk-test notebook: let a Stand-in move, record where it was seen, draw an edge, compare it with the computed one. */
import { useEffect, useState } from 'react';
import { reachWords, tenths, walkTestWords } from '../../../report/text/reach.ts';
import { walkTest } from '../../state/acts.ts';
import { useReach, useReachOpen } from '../../state/reach.ts';
import { inOrder, outlineError, polarOf } from '../../state/reachShape.ts';
import { useApp, useShown } from '../../state/store.ts';
import { clearPoints, letMove, recordPoint, undoPoint, useWalkTest } from '../../state/walkTest.ts';
import { ReachStatus } from '../reach/ReachChoice.tsx';
import ui from '../ui.module.css';
import { Check, Pick, Stepper, WordChoice } from '../ui.tsx';
import styles from './WalkTest.module.css';
import { WalkTestTable } from './WalkTestTable.tsx';

const KINDS = (['across', 'toward', 'seated'] as const).map((value) => ({ value, text: reachWords.kinds[value] }));
/** Steps of the direction, deg, and of the distance, m. Source: a sector of the mask; the step of the outlines. */
const TURN_STEP_DEG = 30;
const FAR_STEP_M = 0.5;
const FURTHEST_M = 20;

const set = useWalkTest.setState;

/** Which rule decides just now, and the way into walk-test. */
function Rule() {
  const phase = useShown((f) => f.phase, 'running');
  const lit = useShown((f) => f.outputs.innerRow.on || f.outputs.windowRow.on, false);
  const rule = phase === 'walkTest' ? 'walkTest' : phase !== 'running' ? 'blind' : lit ? 'lit' : 'dark';
  return (
    <>
      <p className={ui.note}>{walkTestWords.rule[rule]}</p>
      <button
        type="button"
        className={ui.plain}
        disabled={rule === 'blind'}
        onClick={() => walkTest(phase === 'walkTest' ? 'end' : 'start')}
      >
        {phase === 'walkTest' ? walkTestWords.end : walkTestWords.start}
      </button>
    </>
  );
}

/** The movement of an outline at a bearing and distance, done by the Stand-in. */
function Move() {
  const kind = useWalkTest((s) => s.kind);
  const running = useApp((s) => s.status.running);
  const [bearingDeg, setBearing] = useState(0);
  const [farM, setFar] = useState(2);
  const [asked, setAsked] = useState(false);
  const turn = (by: number) => () => setBearing((b) => (b + by + 360) % 360);
  const move = (by: number) => () => setFar((m) => Math.min(FURTHEST_M, Math.max(FAR_STEP_M, m + by)));
  return (
    <fieldset className={styles.block}>
      <legend>{walkTestWords.make}</legend>
      <p className={styles.line}>
        {walkTestWords.direction}
        <Stepper
          label={walkTestWords.direction}
          value={reachWords.bearing(bearingDeg)}
          less={turn(-TURN_STEP_DEG)}
          more={turn(TURN_STEP_DEG)}
        />
      </p>
      <p className={styles.line}>
        {walkTestWords.distance}
        <Stepper
          label={walkTestWords.distance}
          value={tenths(farM)}
          less={move(-FAR_STEP_M)}
          more={move(FAR_STEP_M)}
          canLess={farM > FAR_STEP_M}
        />
      </p>
      <button
        type="button"
        className={ui.plain}
        onClick={() => {
          letMove(kind, bearingDeg, farM);
          setAsked(true);
        }}
      >
        {walkTestWords.go(kind)}
      </button>
      {asked && !running && <p className={ui.note}>{walkTestWords.waits}</p>}
    </fieldset>
  );
}

/** Recording, by hand or each second of a walk; what was recorded last is said. */
function Record() {
  const auto = useWalkTest((s) => s.auto);
  const last = useWalkTest((s) => s.points.at(-1) ?? null);
  const depth = useWalkTest((s) => s.undoDepth);
  const count = useWalkTest((s) => s.points.length);
  const centreM = useApp((s) => s.setup?.mount.atM ?? null);
  const polar = last && centreM ? polarOf(centreM, last.atM) : null;
  return (
    <fieldset className={styles.block}>
      <legend className="visuallyHidden">{walkTestWords.record}</legend>
      <button type="button" className={ui.plain} onClick={recordPoint}>
        {walkTestWords.record}
      </button>
      <Check label={walkTestWords.auto} checked={auto} set={(on) => set({ auto: on })} />
      <p role="status" className={styles.last}>
        {last && polar
          ? walkTestWords.recorded(
              last.id,
              last.seen,
              walkTestWords.ways[last.way],
              walkTestWords.place(polar.radiusM, polar.bearingDeg),
            )
          : walkTestWords.empty}
      </p>
      <p className={ui.note}>{walkTestWords.seenRule}</p>
      <div className={ui.row}>
        <button type="button" className={ui.plain} disabled={depth === 0} onClick={undoPoint}>
          {walkTestWords.undo}
        </button>
        <button type="button" className={ui.plain} disabled={count === 0} onClick={clearPoints}>
          {walkTestWords.clear}
        </button>
      </div>
    </fieldset>
  );
}

/** The learner's edge, and on request the computed outline over it with the distance between the two. */
function Compare() {
  const kind = useWalkTest((s) => s.kind);
  const points = useWalkTest((s) => s.points);
  const edge = useWalkTest((s) => s.edge[kind]);
  const laid = useReach((s) => s.laid);
  const outlines = useReach((s) => s.outlines);
  const stale = useReach((s) => s.progress !== null);
  const centreM = useApp((s) => s.setup?.mount.atM ?? null);
  const mine = points.filter((p) => edge.includes(p.id)).map((p) => p.atM);
  const rays = outlines?.outlines.find((o) => o.kind === kind)?.rays ?? [];
  const error = centreM && !stale ? outlineError(inOrder(mine, centreM), centreM, rays) : null;
  const on = laid === kind;
  const open = useReachOpen();
  return (
    <fieldset className={styles.block}>
      <legend>{walkTestWords.outline}</legend>
      <p>{walkTestWords.outlinePoints(mine.length)}</p>
      {open && (
        <Check label={walkTestWords.lay} checked={on} set={(yes) => useReach.setState({ laid: yes ? kind : null })} />
      )}
      {on && <ReachStatus />}
      {on && !stale && outlines && (
        <p role="status" className={styles.last}>
          {error ? walkTestWords.error(error.meanM, error.directions, error.all) : walkTestWords.noError}
        </p>
      )}
    </fieldset>
  );
}

function chooseKind(kind: (typeof KINDS)[number]['value']): void {
  set({ kind });
  if (useReach.getState().laid !== null) useReach.setState({ laid: kind });
}

export function WalkTest() {
  const letters = useShown((f) => f.people.flatMap((p) => (p.present ? [p.id] : [])).join(''), '');
  const personId = useWalkTest((s) => s.personId);
  const kind = useWalkTest((s) => s.kind);
  const shown = useWalkTest((s) => s.shown);
  const kept = useWalkTest((s) => s.kept);
  const chosen = letters.includes(personId) && personId !== '' ? personId : (letters[0] ?? '');
  // Whoever left cannot be tested any more: the next in the room is.
  useEffect(() => set({ personId: chosen }), [chosen]);
  const others = [...letters].filter((id) => id !== chosen).join(', ');
  return (
    <section aria-label={walkTestWords.region} className={styles.tool}>
      <Rule />
      <WordChoice
        label={walkTestWords.outlineOf}
        options={KINDS}
        chosen={kind}
        choose={chooseKind}
        className={styles.kinds}
      />
      {chosen === '' ? (
        <p className={ui.note}>{walkTestWords.nobody}</p>
      ) : (
        <>
          <Pick
            label={walkTestWords.standIn}
            value={chosen}
            options={[...letters].map((id) => ({ value: id, text: id }))}
            pick={(id) => set({ personId: id })}
          />
          {others !== '' && <p className={ui.note}>{walkTestWords.others(others)}</p>}
          <Move />
          <Record />
        </>
      )}
      <WalkTestTable />
      <Compare />
      <Check label={walkTestWords.shown} checked={shown} set={(on) => set({ shown: on })} />
      <p className={ui.note}>{walkTestWords.legend}</p>
      {!kept && <p className={ui.note}>{walkTestWords.notKept}</p>}
    </section>
  );
}
