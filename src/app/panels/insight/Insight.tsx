/** Words that open the day and the year, and the chart of the sun's path. Loaded with the first sheet that needs it. */
import { lazy, Suspense, useState } from 'react';
import { dayWords } from '../../../report/text/day.ts';
import { pathWords } from '../../../report/text/sunPath.ts';
import { yearWords } from '../../../report/text/year.ts';
import { setApp, useApp } from '../../state/store.ts';
import ui from '../ui.module.css';
import { Check } from '../ui.tsx';
import { SunChart } from './SunChart.tsx';

const DayDialog = lazy(async () => ({ default: (await import('./DayDialog.tsx')).DayDialog }));
const YearDialog = lazy(async () => ({ default: (await import('./YearDialog.tsx')).YearDialog }));

export function Insight() {
  const [open, setOpen] = useState<'none' | 'day' | 'year'>('none');
  const shown = useApp((s) => s.pathsShown);
  // A sheet may tell of its closing after the other has been opened: it closes itself only.
  const close = (which: 'day' | 'year') => (): void => setOpen((now) => (now === which ? 'none' : now));
  return (
    <>
      <div className={ui.row}>
        <button type="button" className={ui.link} onClick={() => setOpen('day')}>
          <span>{dayWords.open}</span>
        </button>
        <button type="button" className={ui.link} onClick={() => setOpen('year')}>
          <span>{yearWords.open}</span>
        </button>
      </div>
      <SunChart />
      <Check label={pathWords.inRoom} checked={shown} set={(pathsShown) => setApp({ pathsShown })} />
      <Suspense fallback={null}>
        {open === 'day' && <DayDialog onClose={close('day')} />}
        {open === 'year' && <YearDialog onClose={close('year')} />}
      </Suspense>
    </>
  );
}
