/** Two walks: the lines on offer, the choice and notes of each, and what they show. */
import { useMemo } from 'react';
import type { Scenario } from '../../../engine/types.ts';
import type { WalkedLine, WalkReason } from '../../../exercise/observe/types.ts';
import { isWalks, type WalkOffer, walkOffers, walkPaces } from '../../../exercise/observe/walks.ts';
import { walkReason, walksWords } from '../../../report/text/walks.ts';
import ui from '../../panels/ui.module.css';
import { Pick, WordChoice } from '../../panels/ui.tsx';
import { useJob } from '../../state/job/job.ts';
import { useObservation } from '../../state/job/observe.ts';
import {
  beginOf,
  chooseWalk,
  noteSeen,
  noteSignal,
  noteUnseen,
  sayEarlier,
  sayWhy,
  showWalk,
  type WalkPlace,
  walkNow,
} from '../../state/job/walks.ts';
import { useShown } from '../../state/store.ts';
import styles from './Observe.module.css';
import parts from './parts.module.css';
import { WalkSketch } from './WalkSketch.tsx';

const PLACES: readonly WalkPlace[] = [0, 1];

export function WalksPart({ scenario }: { scenario: Scenario }) {
  const exercise = useObservation((s) => s.exercise);
  const seed = useJob((s) => s.seed);
  const offers = useMemo(() => (exercise && isWalks(exercise) ? walkOffers(exercise, seed) : []), [exercise, seed]);
  if (!exercise || !isWalks(exercise)) return null;
  return (
    <>
      <p className={ui.note}>{walksWords.how}</p>
      <WalkSketch scenario={scenario} offers={offers} />
      <Lines offers={offers} />
      {PLACES.map((place) => (
        <Walk key={place} place={place} offers={offers} paces={walkPaces(exercise, seed)} />
      ))}
      <Conclusion />
    </>
  );
}

function Lines({ offers }: { offers: readonly WalkOffer[] }) {
  const { line, ends } = walksWords.columns;
  return (
    <>
      <p className={ui.note}>{walksWords.begins(offers[0]!.beginsM)}</p>
      <table className={styles.readings} aria-label={walksWords.lines}>
        <thead>
          <tr>
            <th scope="col">{line}</th>
            <th scope="col">{ends}</th>
          </tr>
        </thead>
        <tbody>
          {offers.map(({ id, endsM }) => (
            <tr key={id}>
              <th scope="row">{walksWords.lineName(id)}</th>
              <td>{walksWords.far(endsM)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

function Walk({ place, offers, paces }: { place: WalkPlace; offers: readonly WalkOffer[]; paces: readonly number[] }) {
  const walk = useObservation((s) => s.walks[place]);
  const shown = useObservation((s) => s.shownWalk === place);
  const making = useObservation((s) => s.making);
  if (!walk) return null;
  return (
    <fieldset className={parts.block}>
      <legend>
        <b>{walksWords.walks[place]}</b>
      </legend>
      <Pick
        label={walksWords.line}
        value={String(walk.line)}
        options={offers.map(({ id }) => ({ value: String(id), text: walksWords.lineName(id) }))}
        pick={(line) => chooseWalk(place, { line: Number(line) })}
      />
      <Pick
        label={walksWords.pace}
        value={String(walk.paceMps)}
        options={paces.map((mps) => ({ value: String(mps), text: walksWords.paceText(mps) }))}
        pick={(mps) => chooseWalk(place, { paceMps: Number(mps) })}
      />
      <button type="button" className={ui.plain} disabled={making} onClick={() => showWalk(place)}>
        {shown ? walksWords.back : walksWords.walk}
      </button>
      {shown && <NoteNow />}
      {making && !shown ? <p role="status">{walksWords.making}</p> : <Noted walk={walk} />}
    </fieldset>
  );
}

/** What the instant shown holds, and what can be noted of it. */
function NoteNow() {
  const begin = useMemo(beginOf, []);
  const now = useShown((frame) => walksWords.now(walkNow(frame, begin)), '');
  return (
    <>
      {/* Read at will: spoken at every tick it would drown everything else. */}
      <output aria-live="off">{now}</output>
      <button type="button" className={ui.plain} onClick={noteSeen}>
        {walksWords.seenHere}
      </button>
      <button type="button" className={ui.plain} onClick={noteSignal}>
        {walksWords.signalHere}
      </button>
      <button type="button" className={ui.plain} onClick={noteUnseen}>
        {walksWords.notSeen}
      </button>
    </>
  );
}

function Noted({ walk: { seen, unseen, signal } }: { walk: WalkedLine }) {
  const notes = [
    ...(seen ? [walksWords.seenAfter(seen.wayM)] : unseen ? [walksWords.never] : []),
    ...(signal ? [walksWords.signalOf(signal.signalUv)] : []),
  ];
  return (
    <p role="status">
      {walksWords.notes}: {notes.join('; ') || walksWords.nothing}
    </p>
  );
}

const REASONS = Object.entries(walkReason).map(([value, text]) => ({ value: value as WalkReason, text }));

function Conclusion() {
  const earlier = useObservation((s) => s.earlier);
  const why = useObservation((s) => s.why);
  return (
    <fieldset className={parts.block}>
      <legend>
        <b>{walksWords.conclusion}</b>
      </legend>
      <p>{walksWords.earlier}</p>
      <WordChoice
        label={walksWords.earlier}
        options={PLACES.map((place) => ({ value: String(place), text: walksWords.walks[place] }))}
        chosen={String(earlier)}
        choose={(place) => sayEarlier(place === '0' ? 0 : 1)}
        className={styles.outputs}
      />
      <Pick<WalkReason | 'none'>
        label={walksWords.why}
        value={why ?? 'none'}
        options={[{ value: 'none', text: walksWords.chooseWhy }, ...REASONS]}
        pick={(picked) => sayWhy(picked === 'none' ? null : picked)}
      />
    </fieldset>
  );
}
