/** What lies on the floor, and where the view is from. One overlay at a time. */
import { lazy, Suspense } from 'react';
import { en } from '../../report/text/en.ts';
import { luxNumber } from '../../report/text/format.ts';
import { LIGHT_STOPS, lightShare } from '../panels/plan/lightImage.ts';
import ui from '../panels/ui.module.css';
import { type Overlay, type Station, setApp, useApp, useShown, type View } from '../state/store.ts';
import styles from './Choices.module.css';

const OVERLAYS: readonly Overlay[] = ['none', 'sight', 'warmth', 'light'];
const WarmthLegend = lazy(async () => ({ default: (await import('../panels/warmth/WarmthLegend.tsx')).WarmthLegend }));

const ReachChoice = lazy(async () => ({ default: (await import('../panels/reach/ReachChoice.tsx')).ReachChoice }));

const STATIONS: readonly Station[] = ['corner', 'door', 'desk', 'ceiling'];

function Word({ text, chosen, choose }: { text: string; chosen: boolean; choose: () => void }) {
  return (
    <button type="button" className={ui.word} aria-pressed={chosen} onClick={choose}>
      <span>{text}</span>
    </button>
  );
}

export function Choices() {
  const overlay = useApp((s) => s.overlay);
  const view = useApp((s) => s.view);
  const sealed = useApp((s) => s.job?.sealed ?? false);
  const station = useApp((s) => s.station);
  const canShowRoom = useApp((s) => s.noRoomView === null);
  const set = (next: View) => () => setApp({ view: next });
  return (
    <div className={view === 'room' ? styles.choices : styles.inline}>
      {view !== 'words' && !sealed && (
        // biome-ignore lint/a11y/useSemanticElements: laid out in one line
        <div role="group" aria-label={en.stage.onTheFloor}>
          <span>{en.stage.onTheFloor}</span>
          {OVERLAYS.map((value) => (
            <Word
              key={value}
              text={en.stage.overlays[value]}
              chosen={value === overlay}
              choose={() => setApp({ overlay: value })}
            />
          ))}
        </div>
      )}
      {/* biome-ignore lint/a11y/useSemanticElements: laid out in one line */}
      <div role="group" aria-label={en.stage.viewFrom}>
        {canShowRoom && view === 'room' && <span>{en.stage.viewFrom}</span>}
        {canShowRoom && view !== 'room' && <Word text={en.stage.room} chosen={false} choose={set('room')} />}
        {view === 'room' &&
          STATIONS.map((value) => (
            <Word
              key={value}
              text={en.stage.stations[value]}
              chosen={value === station}
              choose={() => setApp({ station: value })}
            />
          ))}
        <Word
          text={view === 'room' ? en.stage.planShort : en.stage.plan}
          chosen={view === 'plan'}
          choose={set('plan')}
        />
        <Word
          text={view === 'room' ? en.stage.wordsShort : en.stage.words}
          chosen={view === 'words'}
          choose={set('words')}
        />
      </div>
    </div>
  );
}

const LEGEND_LX = [50, 100, 200, 300, 500, 1000, 2000];

/** What the overlay on the floor means, always there while it is. */
export function Legend() {
  const overlay = useApp((s) => s.overlay);
  const view = useApp((s) => s.view);
  const section = useApp((s) => s.sectionDeg !== null);
  if (overlay === 'light') return <LightLegend />;
  if (overlay === 'warmth') {
    return (
      <div className={view === 'room' ? styles.legend : styles.legendLine}>
        <Suspense fallback={null}>
          <WarmthLegend flat={view !== 'room'} />
        </Suspense>
      </div>
    );
  }
  if (overlay !== 'sight') return null;
  // Beside the open section there is no room for it: the section has its own words.
  if (section) return null;
  return (
    <div className={view === 'room' ? styles.legend : styles.legendLine}>
      <p>
        <b>{en.stage.overlays.sight}</b> {en.stage.sightLegend}
      </p>
      <Suspense fallback={null}>
        <ReachChoice />
      </Suspense>
      <SectionWord />
    </div>
  );
}

/** Opens the side section; the section closes itself. */
function SectionWord() {
  return <Word text={en.stage.section} chosen={false} choose={() => setApp({ sectionDeg: 0 })} />;
}

function LightLegend() {
  const view = useApp((s) => s.view);
  const setLx = useShown((f) => f.light.inner.setpointLx, null);
  const stops = LIGHT_STOPS.map(([r, g, b], i) => `rgb(${r} ${g} ${b}) ${(i / (LIGHT_STOPS.length - 1)) * 100}%`);
  return (
    <div className={view === 'room' ? styles.legend : styles.legendPlan} data-legend="light">
      <p>
        <b>{en.stage.overlays.light}</b> {en.stage.lightLegend}
      </p>
      <div className={styles.colours} style={{ background: `linear-gradient(to right, ${stops.join(',')})` }}>
        {setLx !== null && <i className={styles.set} style={{ left: `${lightShare(setLx) * 100}%` }} />}
      </div>
      <div className={styles.figures}>
        {LEGEND_LX.map((lx) => (
          <span
            key={lx}
            className={lx === setLx ? styles.setFigure : undefined}
            style={{ left: `${lightShare(lx) * 100}%` }}
          >
            {luxNumber(lx)}
            {lx === setLx && <em>{en.stage.set}</em>}
          </span>
        ))}
      </div>
    </div>
  );
}
