/** The stage: question, picture, and the few words that choose what the picture shows. */
import { lazy, type ReactNode, Suspense, useRef, useState } from 'react';
import type { OutputId, Scenario } from '../../engine/types.ts';
import { en } from '../../report/text/en.ts';
import { OutputLine } from '../panels/OutputLine.tsx';
import { PlanView } from '../panels/plan/PlanView.tsx';
import { SunRail } from '../panels/SunRail.tsx';
import { useSize } from '../panels/useSize.ts';
import { setApp, useApp } from '../state/store.ts';
import { Choices, LightLegend } from './Choices.tsx';
import { ErrorBoundary } from './ErrorBoundary.tsx';
import { Notice, Progress, ToolHint } from './Notices.tsx';
import { Opening } from './Opening.tsx';
import { RoomInWords } from './RoomInWords.tsx';
import styles from './Stage.module.css';
import { StoryPick, TopWords } from './TopWords.tsx';

const RoomView = lazy(() => import('../scene/RoomView.tsx'));

/** Under this width the arc of the sun would cover the picture; the panel "Sun and sky" has it all. */
const RAIL_FROM_PX = 880;

function roomFailed(): void {
  setApp((s) => ({ noRoomView: 'failed', view: s.view === 'room' ? 'plan' : s.view }));
}

function label(output: OutputId): ReactNode {
  return <OutputLine output={output} size={32} />;
}

/** Mounted once for the life of the page; hidden, not taken down, while another view is shown. */
function Room3D({ scenario, shown }: { scenario: Scenario; shown: boolean }) {
  const available = useApp((s) => s.noRoomView === null);
  const [wanted, setWanted] = useState(shown);
  if (shown && !wanted) setWanted(true);
  if (!available || !wanted) return null;
  return (
    <div className={styles.room} data-hidden={!shown} inert={!shown}>
      <ErrorBoundary onError={roomFailed}>
        <Suspense fallback={<p className={styles.loading}>{en.stage.loadingRoom}</p>}>
          <RoomView scenario={scenario} outputLabel={label} />
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
  if (!scenario) return <Notice />;
  const flat = view !== 'room';
  const rail = !opening && view !== 'words' && width >= RAIL_FROM_PX;
  return (
    <div ref={box} className={flat && !opening ? styles.flat : styles.deep}>
      <Room3D scenario={scenario} shown={view === 'room'} />
      {opening ? <Opening scenario={scenario} /> : <Heading scenario={scenario} wide={width >= 1000} />}
      {rail && (
        <div className={styles.rail} style={flat ? { left: width * 0.42, top: 44 } : { left: width * 0.385, top: 14 }}>
          <SunRail
            width={Math.round(width * (flat ? 0.42 : 0.5))}
            height={flat ? 92 : Math.round(Math.min(250, height * 0.33))}
            flat={flat}
          />
        </div>
      )}
      {view === 'plan' && (
        <div className={opening ? styles.openingPlan : styles.planBox}>
          <PlanView scenario={scenario} />
        </div>
      )}
      {view === 'words' && !opening && (
        <div className={styles.wordsBox}>
          <RoomInWords />
        </div>
      )}
      {!opening && <Choices />}
      {!opening && view !== 'words' && <LightLegend />}
      <Progress />
      <ToolHint />
      <Notice />
    </div>
  );
}

function Heading({ scenario, wide }: { scenario: Scenario; wide: boolean }) {
  return (
    <header className={styles.heading}>
      <div className={styles.top}>
        <StoryPick />
        <TopWords />
      </div>
      <h1 className={styles.question}>{scenario.question}</h1>
      {wide && <p className={styles.brief}>{scenario.brief}</p>}
    </header>
  );
}
