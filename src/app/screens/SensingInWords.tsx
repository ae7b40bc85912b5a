/** Warmth Map and side section as text, for Room in Words. */
import { sectionWords } from '../../report/text/section.ts';
import { warmthSentences, warmthWords } from '../../report/text/warmth.ts';
import { SectionTable } from '../panels/section/SectionTable.tsx';
import { turnSection } from '../panels/section/turn.ts';
import ui from '../panels/ui.module.css';
import { live } from '../state/live.ts';
import { setApp, useApp, useShown } from '../state/store.ts';

export function SensingInWords() {
  const scenario = useApp((s) => s.scenario);
  const deg = useApp((s) => s.sectionDeg);
  const sentences = useShown(() => (live.warmth ? warmthSentences(live.warmth).join('\n') : ''), '');
  useShown(() => live.section?.bearingDeg ?? -1, -1);
  if (!scenario) return null;
  const { section } = live;
  return (
    <>
      <h2>{warmthWords.heading}</h2>
      <ul>
        {sentences.split('\n').map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
      <h2>{sectionWords.title}</h2>
      {deg === null ? (
        <button type="button" className={ui.link} onClick={() => setApp({ sectionDeg: 0 })}>
          <span>{sectionWords.table}</span>
        </button>
      ) : (
        <>
          <p aria-live="polite">{sectionWords.plane(deg)}</p>
          <button type="button" className={ui.link} onClick={() => turnSection(-1)}>
            <span>{sectionWords.turnLeft}</span>
          </button>{' '}
          <button type="button" className={ui.link} onClick={() => turnSection(1)}>
            <span>{sectionWords.turnRight}</span>
          </button>
          {section && <SectionTable section={section} scenario={scenario} />}
        </>
      )}
    </>
  );
}
