/** The few words over the stage: which story, what lies on the floor, from where it is seen, what else there is. */
import { drawerWords } from '../../../report/text/drawer.ts';
import { en } from '../../../report/text/en.ts';
import { lectureWords } from '../../../report/text/lecture.ts';
import { leaveLecture, setPanel, setRecap, useLecture } from '../../state/lecture/lecture.ts';
import { openStory } from '../../state/start.ts';
import { type Overlay, type Station, setApp, useApp } from '../../state/store.ts';
import styles from './Lecture.module.css';

const OVERLAYS: readonly Overlay[] = ['none', 'sight', 'warmth', 'light'];
const STATIONS: readonly Station[] = ['corner', 'door', 'desk', 'ceiling'];

export function Tools() {
  const more = useLecture((s) => s.panel === 'more');
  return (
    <nav className={styles.tools} aria-label={lectureWords.tools}>
      <StoryList />
      <FloorList />
      <ViewList />
      <button type="button" onClick={() => setRecap(true)}>
        {lectureWords.recap}
      </button>
      <button type="button" aria-pressed={more} onClick={() => setPanel(more ? 'step' : 'more')}>
        {lectureWords.more2}
      </button>
      <button type="button" onClick={leaveLecture}>
        {lectureWords.leave}
      </button>
    </nav>
  );
}

function StoryList() {
  const id = useApp((s) => s.scenario?.id ?? '');
  const job = useApp((s) => s.job !== null);
  const titles = useApp((s) => s.storyTitles);
  return (
    <select aria-label={en.stories.choose} value={job ? '' : id} onChange={(e) => openStory(e.target.value)}>
      {/* All that the class may know of a hidden cause is that there is one. */}
      {job && <option value="">{`${drawerWords.line(1)} · ${lectureWords.drawer}`}</option>}
      {titles.map((story) => (
        <option key={story.id} value={story.id}>
          {story.title}
        </option>
      ))}
    </select>
  );
}

function FloorList() {
  const overlay = useApp((s) => s.overlay);
  const sealed = useApp((s) => s.job?.sealed ?? false);
  if (sealed) return null;
  return (
    <select
      aria-label={en.stage.onTheFloor}
      value={overlay}
      onChange={(e) => setApp({ overlay: e.target.value as Overlay })}
    >
      {OVERLAYS.map((value) => (
        <option key={value} value={value}>
          {value === 'none' ? `${lectureWords.floor}: ${en.stage.overlays.none}` : en.stage.overlays[value]}
        </option>
      ))}
    </select>
  );
}

function ViewList() {
  const view = useApp((s) => s.view);
  const station = useApp((s) => s.station);
  const canShowRoom = useApp((s) => s.noRoomView === null);
  const choose = (value: string): void => {
    if (value === 'plan' || value === 'words') setApp({ view: value });
    else setApp({ view: 'room', station: value as Station });
  };
  return (
    <select
      aria-label={en.stage.viewFrom}
      value={view === 'room' ? station : view}
      onChange={(e) => choose(e.target.value)}
    >
      {canShowRoom &&
        STATIONS.map((value) => (
          <option key={value} value={value}>
            {`${lectureWords.view}: ${en.stage.stations[value]}`}
          </option>
        ))}
      <option value="plan">{en.stage.plan}</option>
      <option value="words">{en.stage.words}</option>
    </select>
  );
}
