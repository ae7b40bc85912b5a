/** Badge, name and state words of one output: the same in every region. */

import type { OutputId } from '../../engine/types.ts';
import { outputName } from '../../report/text/names.ts';
import { wordsShown } from '../state/outputWords.ts';
import { useShown } from '../state/store.ts';
import { Badge } from './Badge.tsx';
import styles from './OutputLine.module.css';

/** Share of the running count that is left. */
export function shareLeft(sinceTick: number | null, untilTick: number | null, tick: number): number {
  if (sinceTick === null || untilTick === null || untilTick <= sinceTick) return 0;
  // Stepping once a second: rings that creep draw the eye.
  const wholeSecondsLeft = Math.ceil((untilTick - tick) / 10) * 10;
  return Math.min(1, wholeSecondsLeft / (untilTick - sinceTick));
}

export function OutputBadge({ output, size }: { output: OutputId; size: number }) {
  const badge = useShown((f) => f.outputs[output].badge, 'notMeasured');
  const left = useShown((f) => shareLeft(f.outputs[output].sinceTick, f.outputs[output].untilTick, f.tick), 0);
  return <Badge badge={badge} left={left} size={size} />;
}

export function useOutputWord(output: OutputId): string {
  return useShown((f) => wordsShown(f.outputs[output], f.tick).word, 'not measured');
}

export function useOutputRest(output: OutputId): string {
  return useShown((f) => wordsShown(f.outputs[output], f.tick).rest, '');
}

interface OutputLineProps {
  output: OutputId;
  size?: number;
  /** Beside the model, in the colours of the table. */
  onTable?: boolean;
}

export function OutputLine({ output, size = 40, onTable = false }: OutputLineProps) {
  const word = useOutputWord(output);
  const rest = useOutputRest(output);
  return (
    <span className={onTable ? styles.lineOnTable : styles.line} data-channel={output}>
      <span className={styles.badge}>
        <OutputBadge output={output} size={size} />
      </span>
      <span>
        <span className={styles.name}>{outputName[output]}</span>
        <span className={styles.state}>
          <b>{word}</b>
          {rest && ` · ${rest}`}
        </span>
      </span>
    </span>
  );
}
