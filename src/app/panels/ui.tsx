/** Words that act, and steppers. Native buttons throughout. */
import { en } from '../../report/text/en.ts';
import styles from './ui.module.css';

interface WordChoiceProps<T extends string> {
  label: string;
  /** Id of the visible text that names the group, instead of `label`. */
  options: readonly { value: T; text: string }[];
  chosen: T;
  choose: (value: T) => void;
  className?: string | undefined;
}

/** One of a few words; the chosen one has a bar under it. */
export function WordChoice<T extends string>({ label, options, chosen, choose, className }: WordChoiceProps<T>) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out in a line with its legend
    <div role="group" aria-label={label} className={className}>
      {options.map((o) => (
        <button
          key={o.value}
          type="button"
          className={styles.word}
          aria-pressed={o.value === chosen}
          onClick={() => choose(o.value)}
        >
          <span>{o.text}</span>
        </button>
      ))}
    </div>
  );
}

interface StepperProps {
  label: string;
  value: string;
  less: () => void;
  more: () => void;
  canLess?: boolean;
  canMore?: boolean;
}

/** Minus, value, plus. The value is spoken when it changes. */
export function Stepper({ label, value, less, more, canLess = true, canMore = true }: StepperProps) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: see WordChoice
    <span role="group" aria-label={label} className={styles.stepper}>
      <button
        type="button"
        className={styles.soft}
        aria-label={en.setup.less(label)}
        disabled={!canLess}
        onClick={less}
      >
        −
      </button>
      <output>{value}</output>
      <button
        type="button"
        className={styles.soft}
        aria-label={en.setup.more(label)}
        disabled={!canMore}
        onClick={more}
      >
        +
      </button>
    </span>
  );
}

export function Check({ label, checked, set }: { label: string; checked: boolean; set: (on: boolean) => void }) {
  return (
    <label className={styles.check}>
      <input type="checkbox" checked={checked} onChange={(e) => set(e.target.checked)} />
      {label}
    </label>
  );
}

interface PickProps<T extends string> {
  label: string;
  value: T;
  options: readonly { value: T; text: string }[];
  pick: (value: T) => void;
  showLabel?: boolean;
}

export function Pick<T extends string>({ label, value, options, pick, showLabel = true }: PickProps<T>) {
  return (
    <label className={styles.row}>
      <span className={showLabel ? undefined : 'visuallyHidden'}>{label}</span>
      <select className={styles.select} value={value} onChange={(e) => pick(e.target.value as T)}>
        {options.map((o) => (
          <option key={o.value} value={o.value}>
            {o.text}
          </option>
        ))}
      </select>
    </label>
  );
}
