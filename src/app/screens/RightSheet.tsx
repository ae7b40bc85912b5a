/** Paper at the right: the reason, the outputs, and what can be set. */

import { lazy, Suspense, useEffect, useRef } from 'react';
import type { OutputId } from '../../engine/types.ts';
import { en } from '../../report/text/en.ts';
import { OutputLine } from '../panels/OutputLine.tsx';
import { PeoplePanel } from '../panels/PeoplePanel.tsx';
import { PressButton } from '../panels/PressButton.tsx';
import { ReasonCard } from '../panels/ReasonCard.tsx';
import { RoomPanel } from '../panels/RoomPanel.tsx';
import { SetupSheet } from '../panels/SetupSheet.tsx';
import { SkyPanel } from '../panels/SkyPanel.tsx';
import { WordChoice } from '../panels/ui.tsx';
import { type SheetPanel, selectOutput, setApp, useApp } from '../state/store.ts';
import styles from './RightSheet.module.css';

const KitBag = lazy(async () => ({ default: (await import('../panels/kit/KitBag.tsx')).KitBag }));

const AuthorBand = lazy(async () => ({ default: (await import('./author/AuthorBand.tsx')).AuthorBand }));

const OUTPUTS: readonly OutputId[] = ['innerRow', 'windowRow', 'airContact'];
const PANELS = (['setup', 'people', 'sky', 'room', 'kit'] as const).map((value) => ({ value, text: en.panels[value] }));

export function RightSheet() {
  const output = useApp((s) => (s.selection.kind === 'output' ? s.selection.output : s.lastOutput));
  const sheet = useRef<HTMLElement>(null);
  const recording = useApp((s) => s.authoring !== null);
  // The card of a newly chosen output is what was asked for: show it.
  // biome-ignore lint/correctness/useExhaustiveDependencies: acts on the change of output only
  useEffect(() => {
    sheet.current?.scrollTo({ top: 0 });
  }, [output]);
  return (
    <aside ref={sheet} className={styles.sheet}>
      {recording && (
        <Suspense fallback={null}>
          <AuthorBand />
        </Suspense>
      )}
      <ReasonCard output={output} />
      <Outputs chosen={output} />
      <Panels />
    </aside>
  );
}

function Outputs({ chosen }: { chosen: OutputId }) {
  return (
    <section className={styles.outputs} aria-label={en.outputs.region}>
      {OUTPUTS.filter((output) => output !== chosen).map((output) => (
        <div key={output} className={styles.output}>
          <button
            type="button"
            className={styles.pick}
            aria-pressed={output === chosen}
            onClick={() => selectOutput(output)}
          >
            <OutputLine output={output} size={34} />
          </button>
          <PressButton output={output} />
        </div>
      ))}
    </section>
  );
}

function Panels() {
  const panel = useApp((s) => s.panel);
  return (
    <div className={styles.panels}>
      <WordChoice
        label={en.panels.group}
        options={PANELS}
        chosen={panel}
        choose={(value: SheetPanel) => setApp({ panel: value })}
        className={styles.panelWords}
      />
      {panel === 'setup' && <SetupSheet />}
      {panel === 'people' && <PeoplePanel />}
      {panel === 'sky' && <SkyPanel />}
      {panel === 'room' && <RoomPanel />}
      {panel === 'kit' && (
        <Suspense fallback={null}>
          <KitBag />
        </Suspense>
      )}
    </div>
  );
}
