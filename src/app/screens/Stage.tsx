/** The stage: question, picture, and the few words that choose what the picture shows. */
import { lazy, type ReactNode, Suspense, useRef, useState } from 'react';
import type { OutputId, Scenario } from '../../engine/types.ts';
import { en } from '../../report/text/en.ts';
import { OutputLine } from '../panels/OutputLine.tsx';
import { PlanView } from '../panels/plan/PlanView.tsx';
import { SunRail } from '../panels/SunRail.tsx';
import ui from '../panels/ui.module.css';
import { useSize } from '../panels/useSize.ts';
import { act } from '../state/session.ts';
import { setApp, useApp, useShown } from '../state/store.ts';
import { Choices, Legend } from './Choices.tsx';
import { ErrorBoundary } from './ErrorBoundary.tsx';
import { Notice, Progress, ToolHint } from './Notices.tsx';
import { Opening } from './Opening.tsx';
import styles from './Stage.module.css';
import { OpenFile, StoryPick, TopWords } from './TopWords.tsx';

const RoomInWords = lazy(async () => ({ default: (await import('./RoomInWords.tsx')).RoomInWords }));
const SideSection = lazy(async () => ({ default: (await import('../panels/section/SideSection.tsx')).SideSection }));
const RoomView = lazy(() => import('../scene/RoomView.tsx'));

/** Under this width the arc of the sun would cover the picture; the panel "Sky" has it all. */
const RAIL_FROM_PX = 880;
/** Under this width the story's few sentences would push the picture away. */
const WIDE_FROM_PX = 1200;

/** Shares of the whole window that the opening's words take: the model stands higher and larger than on the stage. */
const OPENING_MARGINS = { left: 0.11, right: 0.09, top: 0.03, bottom: 0.13 };

/** The lecture's words stand around the stage, not on it. */
const LECTURE_MARGINS = { left: 0.03, right: 0.03, top: 0.03, bottom: 0.04 };
/** Sun Rail and legend beside the model on the Big Screen, or over it where that leaves less than its own, lines of 1080. */
const COLUMN_PX = 470;
const BESIDE_FROM_PX = 2.2 * COLUMN_PX;
const RAIL_SHARE = 0.4;

/** The model makes room for the side section at its right. */
const SECTION_MARGINS = { left: 0.03, right: 0.55, top: 0.24, bottom: 0.2 };

function roomFailed(): void {
  setApp((s) => ({ noRoomView: 'failed', view: s.view === 'room' ? 'plan' : s.view }));
}

function label(output: OutputId): ReactNode {
  return <OutputLine output={output} size={32} onTable />;
}

/** Mounted once for the life of the page; hidden, not taken down, while another view is shown. */
interface Room3DProps {
  scenario: Scenario;
  shown: boolean;
  margins: typeof OPENING_MARGINS | undefined;
}

function Room3D({ scenario, shown, margins }: Room3DProps) {
  const available = useApp((s) => s.noRoomView === null);
  const [wanted, setWanted] = useState(shown);
  if (shown && !wanted) setWanted(true);
  if (!available || !wanted) return null;
  return (
    <div className={styles.room} data-hidden={!shown} inert={!shown}>
      <ErrorBoundary onError={roomFailed}>
        <Suspense fallback={<p className={styles.loading}>{en.stage.loadingRoom}</p>}>
          <RoomView scenario={scenario} outputLabel={label} margins={margins} />
        </Suspense>
      </ErrorBoundary>
    </div>
  );
}

export function Stage({ opening }: { opening: boolean }) {
  const box = useRef<HTMLDivElement>(null);
  const { width, height } = useSize(box);
  const scenario = useApp((s) => s.scenario);
  const view = useApp((s) => s.view);
  const job = useApp((s) => s.job !== null);
  const scale = useApp((s) => s.lecture?.scale ?? 0);
  const lecture = scale > 0;
  const flat = view !== 'room';
  const overlay = useApp((s) => s.overlay);
  const paths = useApp((s) => s.pathsShown && s.view === 'room');
  const section = useApp((s) => s.overlay === 'sight' && s.sectionDeg !== null && s.view !== 'words') && !opening;
  const crowded = job || lecture || paths || (section && !flat);
  const rail = !opening && !crowded && view !== 'words' && width >= (flat ? WIDE_FROM_PX : RAIL_FROM_PX);
  const column = lecture && !job && !section;
  const beside = column && width >= BESIDE_FROM_PX * scale;
  const room = beside
    ? { right: (COLUMN_PX * scale) / width }
    : column && overlay !== 'light'
      ? { top: RAIL_SHARE }
      : {};
  const margins = lecture
    ? { ...LECTURE_MARGINS, ...room }
    : opening
      ? OPENING_MARGINS
      : section
        ? SECTION_MARGINS
        : undefined;
  return (
    <div ref={box} className={flat && !opening ? styles.flat : styles.deep}>
      {scenario && <Room3D scenario={scenario} shown={view === 'room'} margins={margins} />}
      {scenario && opening && <Opening scenario={scenario} />}
      {scenario && !opening && !lecture && <Heading scenario={scenario} wide={width >= WIDE_FROM_PX} />}
      {rail && <Rail width={width} height={height} flat={flat} />}
      {!opening && !lecture && flat && <Choices />}
      {scenario && view === 'plan' && (
        <div
          className={`${opening ? styles.openingPlan : styles.planBox} ${section ? styles.beside : ''}`}
          data-column={beside ? 'beside' : column && overlay !== 'light' ? 'over' : null}
        >
          <PlanView scenario={scenario} />
        </div>
      )}
      {scenario && section && (
        <div className={styles.section} data-flat={flat}>
          <Suspense fallback={null}>
            <SideSection scenario={scenario} />
          </Suspense>
        </div>
      )}
      {view === 'words' && !opening && (
        <div className={styles.wordsBox}>
          <Suspense fallback={null}>
            <RoomInWords />
          </Suspense>
        </div>
      )}
      {!opening && !lecture && !flat && <Choices />}
      {!opening && view !== 'words' && <Legend />}
      <Progress />
      <ToolHint />
      <Notice />
    </div>
  );
}

/** The arc of the sun: along the back of the drawn room, or level over the plan. */
function Rail({ width, height, flat }: { width: number; height: number; flat: boolean }) {
  const narrow = width < WIDE_FROM_PX;
  const place = flat ? { left: width * 0.61, top: 52 } : { left: width * 0.385, top: narrow ? 44 : 42 };
  const railHeight = flat ? 92 : Math.round(Math.min(222, height * (narrow ? 0.28 : 0.3)));
  return (
    <div className={styles.rail} style={place}>
      <SunRail width={Math.round(width * (flat ? 0.37 : 0.5))} height={railHeight} flat={flat} />
    </div>
  );
}

function Heading({ scenario, wide }: { scenario: Scenario; wide: boolean }) {
  const deep = useApp((s) => s.view === 'room');
  return (
    <header className={styles.heading}>
      <div className={styles.top}>
        <div className={styles.story}>
          <StoryPick />
          <OpenFile />
        </div>
        <TopWords />
      </div>
      <h1 className={styles.question}>{scenario.question}</h1>
      {wide && deep && <p className={styles.brief}>{scenario.brief}</p>}
      <Suggested scenario={scenario} roomy={wide && deep} />
    </header>
  );
}

/** Offered quietly once someone has been seen: acts of the story's author and, where there is room, hints in words. */
function Suggested({ scenario, roomy }: { scenario: Scenario; roomy: boolean }) {
  const seen = useShown((f) => f.lastSeenTick !== null, false);
  const shown = (scenario.suggested ?? []).filter(({ input }) => roomy || input !== null);
  if (!seen || shown.length === 0) return null;
  return (
    <ul className={roomy ? styles.suggested : styles.suggestedSmall} aria-label={en.stage.tryThis}>
      {shown.map(({ say, input }) => (
        <li key={say}>
          {input ? (
            <button type="button" className={ui.link} onClick={() => act(input)}>
              <span>{say}</span>
            </button>
          ) : (
            say
          )}
        </li>
      ))}
    </ul>
  );
}
