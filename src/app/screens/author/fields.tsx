/** Parts of a sheet on which a job is described. */
import type { ReactNode } from 'react';
import { authoringWords } from '../../../report/text/authoring.ts';
import styles from './Author.module.css';

export function Part({ title, children }: { title: string; children: ReactNode }) {
  return (
    <section aria-label={title} className={styles.part}>
      <h3>{title}</h3>
      {children}
    </section>
  );
}

interface LineProps {
  label: string;
  value: string;
  most: number;
  set: (text: string) => void;
}

export function Line({ label, value, most, set }: LineProps) {
  return (
    <label className={styles.field}>
      <span>{label}</span>
      <textarea
        rows={most > 100 ? 2 : 1}
        maxLength={most}
        value={value}
        onChange={(e) => set(e.target.value.replace(/\n/g, ' '))}
      />
    </label>
  );
}

type ThreeHints = [string, string, string];

export function Hints({ hints, set }: { hints: ThreeHints; set: (hints: ThreeHints) => void }) {
  return (
    <Part title={authoringWords.hints}>
      {hints.map((hint, i) => (
        <Line
          // biome-ignore lint/suspicious/noArrayIndexKey: three hints, each in its place
          key={i}
          label={authoringWords.hint(i + 1)}
          value={hint}
          most={200}
          set={(text) => set(hints.map((h, j) => (j === i ? text : h)) as ThreeHints)}
        />
      ))}
    </Part>
  );
}
