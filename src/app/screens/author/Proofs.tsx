/** Keeping the job, and whether it stands: the proofs that every bundled job plays, bench by bench. */
import { PROOF_SEEDS } from '../../../exercise/proofs.ts';
import { authoringWords, proofText } from '../../../report/text/authoring.ts';
import ui from '../../panels/ui.module.css';
import { useOwnProof } from '../../state/ownProof.ts';
import styles from './Author.module.css';

interface ProofsProps {
  /** The sheet has what a file needs. */
  ready: boolean;
  keepAndProve: () => void;
  save: () => void;
  open: () => void;
}

export function Proofs({ ready, keepAndProve, save, open }: ProofsProps) {
  const { sentences, results, provingBench, settled } = useOwnProof();
  const canGo = ready && provingBench === null;
  const verdict = results.every(({ fault }) => fault === null) ? authoringWords.proved : authoringWords.notProved;
  return (
    <section aria-label={authoringWords.proofs}>
      <div className={styles.acts}>
        <button type="button" className={styles.primary} disabled={!canGo} onClick={keepAndProve}>
          {authoringWords.prove}
        </button>
        <button type="button" className={ui.plain} disabled={!canGo} onClick={save}>
          {authoringWords.save}
        </button>
        {settled && (
          <button type="button" className={ui.plain} onClick={open}>
            {authoringWords.open}
          </button>
        )}
      </div>
      <div role="status">
        {provingBench !== null && <p>{authoringWords.proving(provingBench, PROOF_SEEDS.length)}</p>}
        {settled && <p className={styles.verdict}>{verdict}</p>}
        {sentences.map((text) => (
          <p key={text}>{text}</p>
        ))}
      </div>
      {results.length > 0 && (
        <table className={styles.proofs} aria-label={authoringWords.proofs}>
          <thead>
            <tr>
              <th scope="col">{authoringWords.bench}</th>
              <th scope="col">{authoringWords.proof}</th>
              <th scope="col">{authoringWords.result}</th>
            </tr>
          </thead>
          <tbody>
            {results.map((result) => (
              <tr key={`${result.seed}${result.proof}`}>
                <td>{result.seed}</td>
                <td>{result.proof}</td>
                <td>{result.fault === null ? proofText(result) : <b>{proofText(result)}</b>}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p className={ui.note}>
        {authoringWords.handOut} {authoringWords.tray}
      </p>
    </section>
  );
}
