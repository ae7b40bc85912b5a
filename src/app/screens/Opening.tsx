/** The first second: paused, dark, one question, one button. */

import type { OutputId, Scenario } from '../../engine/types.ts';
import { en } from '../../report/text/en.ts';
import { dayMonth, hourMinute, localSeconds } from '../../report/text/format.ts';
import { RunButton } from '../panels/ClockBar.tsx';
import { OutputLine } from '../panels/OutputLine.tsx';
import ui from '../panels/ui.module.css';
import { openLecture } from '../state/start.ts';
import { setApp, useApp, useShown } from '../state/store.ts';
import styles from './Opening.module.css';
import { OpenFile, StoryPick } from './TopWords.tsx';

const OUTPUTS: readonly OutputId[] = ['innerRow', 'windowRow', 'airContact'];

export function Opening({ scenario }: { scenario: Scenario }) {
  const view = useApp((s) => s.view);
  const canShowRoom = useApp((s) => s.noRoomView === null);
  const startS = localSeconds(0, scenario.start);
  const daytime = useShown((f) => en.opening.daytime(f.sun.altitudeDeg, startS < 43_200), '');
  return (
    <div className={styles.opening}>
      <div className={styles.left}>
        <p className={styles.clock}>{hourMinute(startS)}</p>
        <p className={styles.paused}>
          {en.opening.paused} · {dayMonth(scenario.start.localDate)}
          {daytime && `, ${daytime}`}
        </p>
        <ul className={styles.outputs}>
          {OUTPUTS.map((output) => (
            <li key={output}>
              <OutputLine output={output} size={38} />
            </li>
          ))}
        </ul>
      </div>
      <nav className={styles.words} aria-label={en.actions.group}>
        <StoryPick />
        <OpenFile />
        {canShowRoom && (
          <button type="button" className={ui.word} onClick={() => setApp({ view: view === 'plan' ? 'room' : 'plan' })}>
            <span>{view === 'plan' ? en.stage.room : en.stage.plan}</span>
          </button>
        )}
        <button type="button" className={ui.word} onClick={() => setApp({ screen: 'main', view: 'words' })}>
          <span>{en.stage.words}</span>
        </button>
        <button type="button" className={ui.word} onClick={() => setApp({ classOpen: true })}>
          <span>{en.actions.class}</span>
        </button>
        <button type="button" className={ui.word} onClick={() => void openLecture()}>
          <span>{en.actions.lecture}</span>
        </button>
        <button type="button" className={ui.word} onClick={() => setApp({ aboutOpen: true })}>
          <span>{en.actions.help}</span>
        </button>
      </nav>
      <div className={styles.foot}>
        <h1>{scenario.question}</h1>
        <RunButton big />
      </div>
    </div>
  );
}
