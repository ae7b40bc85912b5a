/** Side section beside the Sight Map: from the detector down to desk height and floor, in a plane that can be turned. */
import { useRef } from 'react';
import type { SideSection as Section } from '../../../engine/detection/sideSection.ts';
import type { PointM, Scenario } from '../../../engine/types.ts';
import { sectionWords, wallInSection } from '../../../report/text/section.ts';
import { live } from '../../state/live.ts';
import { setApp, useApp, useShown } from '../../state/store.ts';
import ui from '../ui.module.css';
import { useSize } from '../useSize.ts';
import { Cells, DeskLine, Detector, Distances, drawingWords, Figures, Furniture, Shell } from './Drawing.tsx';
import { figureInSection, type SectionFigure, sectionScale, wallAt } from './layout.ts';
import styles from './Section.module.css';
import { SectionTable } from './SectionTable.tsx';
import { turnSection } from './turn.ts';

function onKey(event: React.KeyboardEvent): void {
  if (event.key !== 'ArrowLeft' && event.key !== 'ArrowRight') return;
  event.preventDefault();
  turnSection(event.key === 'ArrowRight' ? 1 : -1);
}

/** The section last told, once it is the one that is asked for. */
function useSection(): Section | null {
  useShown(() => live.section && `${live.section.bearingDeg}/${live.sightVersion}/${live.section.cells.length}`, null);
  return live.section;
}

export function SideSection({ scenario }: { scenario: Scenario }) {
  const box = useRef<HTMLDivElement>(null);
  const { width, height } = useSize(box);
  const section = useSection();
  const deg = useApp((s) => s.sectionDeg);
  return (
    <section className={styles.panel} aria-label={sectionWords.title}>
      <header className={styles.head}>
        <h2>{sectionWords.title}</h2>
        <button type="button" className={ui.soft} aria-label={sectionWords.turnLeft} onClick={() => turnSection(-1)}>
          ↺
        </button>
        <output aria-live="polite">
          {sectionWords.degrees(deg ?? 0)}
          <span className="visuallyHidden"> {sectionWords.plane(deg ?? 0)}</span>
        </output>
        <button type="button" className={ui.soft} aria-label={sectionWords.turnRight} onClick={() => turnSection(1)}>
          ↻
        </button>
        <button type="button" className={ui.word} onClick={() => setApp({ sectionDeg: null })}>
          <span>{sectionWords.close}</span>
        </button>
      </header>
      <div ref={box} className={styles.drawing}>
        {section && width > 80 && <Drawn {...{ section, scenario, width, height }} />}
      </div>
      <p className={styles.words}>{sectionWords.legend}</p>
      <details className={styles.table}>
        <summary>{sectionWords.table}</summary>
        {section && <SectionTable section={section} scenario={scenario} />}
      </details>
    </section>
  );
}

interface DrawnProps {
  section: Section;
  scenario: Scenario;
  width: number;
  height: number;
}

function Drawn({ section, scenario, width, height }: DrawnProps) {
  const mount = useApp((s) => s.setup?.mount ?? scenario.mount);
  const furniture = useApp((s) => s.setup?.furniture ?? scenario.room.furniture);
  const scale = sectionScale(section, width, height);
  const [from, to] = section.alongM.map(
    (along) => wallInSection[wallAt(scenario.room, mount.atM, section.bearingDeg, along)],
  ) as [string, string];
  return (
    <svg
      width={width}
      height={scale.heightPx}
      role="img"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: arrow keys turn the plane
      tabIndex={0}
      onKeyDown={onKey}
      aria-label={drawingWords(section, from, to)}
      data-bearing={section.bearingDeg}
    >
      <Shell section={section} scale={scale} />
      <DeskLine section={section} scale={scale} />
      <Furniture section={section} scale={scale} furniture={furniture} />
      <Cells section={section} scale={scale} />
      <Near section={section} scale={scale} eyeM={mount.atM} />
      <Detector section={section} scale={scale} />
      <Distances section={section} scale={scale} />
      <text x={scale.x(section.alongM[0]) + 6} y={scale.y(section.heightM) + 17} className={styles.wall}>
        {from}
      </text>
      <text
        x={scale.x(section.alongM[1]) - 6}
        y={scale.y(section.heightM) + 17}
        textAnchor="end"
        className={styles.wall}
      >
        {to}
      </text>
    </svg>
  );
}

/** Stand-ins near the plane, ten times a second while they move. */
function Near({ section, scale, eyeM }: { section: Section; scale: ReturnType<typeof sectionScale>; eyeM: PointM }) {
  useShown((f) => f.tick, 0);
  const { frame } = live;
  if (!frame) return null;
  const figures: (SectionFigure & { id: string })[] = [];
  const present = frame.people.filter((person) => person.present);
  present.slice(0, frame.bodyCount).forEach(({ id }, body) => {
    const figure = figureInSection(frame.bodyParts, body, eyeM, section.bearingDeg);
    if (figure) figures.push({ id, ...figure });
  });
  return <Figures figures={figures} scale={scale} />;
}
