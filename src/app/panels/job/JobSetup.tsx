/** Settings of the room in an exercise, to read. */
import { releaseMarginLx } from '../../../engine/control/questions.ts';
import type { Scenario } from '../../../engine/types.ts';
import { luxText, minuteSecond } from '../../../report/text/format.ts';
import { jobWords } from '../../../report/text/jobs.ts';
import { outputName } from '../../../report/text/names.ts';
import styles from './JobSetup.module.css';

export function JobSetup({ scenario }: { scenario: Scenario }) {
  const { settings } = scenario;
  const lux = (lx: number | null): string => (lx === null ? '–' : luxText(lx));
  const rows = [
    { output: 'innerRow', setLx: settings.innerSetpointLx, offS: settings.innerOffDelayS },
    { output: 'windowRow', setLx: settings.windowSetpointLx, offS: settings.windowOffDelayS },
  ] as const;
  const { setpoint, release, offDelay } = jobWords.columns;
  return (
    <table className={styles.setup}>
      <caption>
        <b>{jobWords.setup}</b> <span>{jobWords.setupLocked}</span>
      </caption>
      <thead>
        <tr>
          <td />
          <th scope="col">{setpoint}</th>
          <th scope="col">{release}</th>
          <th scope="col">{offDelay}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ output, setLx, offS }) => (
          <tr key={output}>
            <th scope="row" data-channel={output}>
              {outputName[output]}
            </th>
            <td>{lux(setLx)}</td>
            <td>{lux(setLx === null ? null : setLx + releaseMarginLx(setLx, settings))}</td>
            <td>{minuteSecond(offS)}</td>
          </tr>
        ))}
        <tr>
          <th scope="row" data-channel="airContact">
            {outputName.airContact}
          </th>
          <td colSpan={2}>{jobWords.wait(minuteSecond(settings.airOnDelayS))}</td>
          <td>{minuteSecond(settings.airOffDelayS)}</td>
        </tr>
        <tr>
          <th scope="row" colSpan={3}>
            {jobWords.dwell}
          </th>
          <td>{minuteSecond(settings.brightDwellS)}</td>
        </tr>
      </tbody>
    </table>
  );
}
