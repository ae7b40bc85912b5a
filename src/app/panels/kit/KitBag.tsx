/** The instruments, one at a time. Each is a component of this folder; they read the room, they never change it. */
import { type ReactElement, useState } from 'react';
import { kitWords } from '../../../report/text/kit.ts';
import { WordChoice } from '../ui.tsx';
import { DetectorView } from './DetectorView.tsx';
import styles from './Lux.module.css';
import { LuxMeter } from './LuxMeter.tsx';
import { WalkTest } from './WalkTest.tsx';

type Tool = keyof typeof kitWords.tools;

const TOOLS: Partial<Record<Tool, () => ReactElement | null>> = { lux: LuxMeter, view: DetectorView, reach: WalkTest };

/** `first` lies on top when the bag is opened. */
export function KitBag({ first }: { first?: Tool }) {
  const tools = (Object.keys(kitWords.tools) as Tool[]).filter((tool) => TOOLS[tool]);
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
