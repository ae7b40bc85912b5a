/**
 * The instruments, one at a time. Each is a component of this folder; they read the room and never change it. Only
 * cloth and torch act on it, by inputs that end by themselves.
 */
import { type ReactElement, useState } from 'react';
import { kitWords } from '../../../report/text/kit.ts';
import { useApp } from '../../state/store.ts';
import { WordChoice } from '../ui.tsx';
import { ClothAndTorch } from './ClothAndTorch.tsx';
import { DetectorView } from './DetectorView.tsx';
import styles from './Lux.module.css';
import { LuxMeter } from './LuxMeter.tsx';
import { WalkTest } from './WalkTest.tsx';

type Tool = keyof typeof kitWords.tools;

const TOOLS: Record<Tool, () => ReactElement | null> = {
  lux: LuxMeter,
  view: DetectorView,
  reach: WalkTest,
  held: ClothAndTorch,
};

/** `first` lies on top when the bag is opened. */
export function KitBag({ first }: { first?: Tool }) {
  const mayHold = useApp(({ job }) => job === null || job.stage === 'trying' || job.allows.includes('coverDetector'));
  const tools = (Object.keys(kitWords.tools) as Tool[]).filter((tool) => tool !== 'held' || mayHold);
  const [chosen, setChosen] = useState<Tool | undefined>(first ?? tools[0]);
  const Instrument = chosen && TOOLS[chosen];
  return (
    <section aria-label={kitWords.region}>
      {chosen && (
        <WordChoice
          label={kitWords.region}
          options={tools.map((value) => ({ value, text: kitWords.tools[value] }))}
          chosen={chosen}
          choose={setChosen}
          className={styles.words}
        />
      )}
      {Instrument && <Instrument />}
    </section>
  );
}
