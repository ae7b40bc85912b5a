/** What each photometer sees from the ceiling, and what its reading is made of. */
import { useEffect, useRef, useState } from 'react';
import type { PhotometerView } from '../../../engine/instruments.ts';
import { VIEW_PX, type DetectorView as View } from '../../../engine/light/detectorParts.ts';
import type { RowId } from '../../../engine/types.ts';
import { grouped, joined } from '../../../report/text/format.ts';
import { rowName, viewWords, wholeParts } from '../../../report/text/lux.ts';
import { watchPhotometers } from '../../state/probeActs.ts';
import { useProbes } from '../../state/probes.ts';
import { useApp } from '../../state/store.ts';
import { WordChoice } from '../ui.tsx';
import styles from './Lux.module.css';
import { type Part, partLists } from './parts.ts';

const ROWS = (['window', 'inner'] as const).map((value) => ({ value, text: rowName[value] }));

/** Black is this share of white on the picture's logarithmic ramp. Assumed: a thousandth, from a bright window to a dark floor. */
const RAMP = 1000;
/** Outside the ring the picture is this much darker. Assumed: still to be made out, and plainly not counted. */
const OUTSIDE = 0.6;

export function DetectorView() {
  const [row, setRow] = useState<RowId>('window');
  useEffect(watchPhotometers, []);
  const seen = useProbes((s) => s.photometers?.[row] ?? null);
  const updating = useApp((s) => s.status.updating);
  return (
    <section aria-label={viewWords.region} className={updating ? styles.grey : undefined}>
      <WordChoice label={viewWords.photometer} options={ROWS} chosen={row} choose={setRow} className={styles.words} />
      <p className={styles.note}>{viewWords.intro}</p>
      {seen ? <Seen row={row} seen={seen} /> : <p className={styles.grey}>{viewWords.waiting}</p>}
    </section>
  );
}

function Seen({ row, seen }: { row: RowId; seen: PhotometerView }) {
  const { looks, whose } = partLists(seen.parts, row);
  const most = looks.filter(({ lx }) => lx > 0).sort((a, b) => b.lx - a.lx);
  const largest = joined(most.slice(0, 2).map(({ name }) => name.toLowerCase()));
  return (
    <>
      <Picture view={seen.view} label={viewWords.picture(row, largest)} />
      <p className={styles.note}>
        {viewWords.ring} {viewWords.outlines} {viewWords.scale(grouped(whiteOf(seen.view)))}.
      </p>
      <Bars caption={viewWords.looks} parts={looks} />
      <Bars caption={viewWords.whose} parts={whose} />
    </>
  );
}

/** White of the ramp, cd/m2: the brightest pixel, up to two figures. */
function whiteOf({ luminance }: View): number {
  const most = luminance.reduce((a, b) => Math.max(a, b), 1);
  const figure = 10 ** Math.max(0, Math.floor(Math.log10(most)) - 1);
  return Math.ceil(most / figure) * figure;
}

function Picture({ view, label }: { view: View; label: string }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (!context) return;
    const image = context.createImageData(VIEW_PX, VIEW_PX);
    const white = whiteOf(view);
    for (let k = 0; k < view.luminance.length; k++) {
      const cdM2 = view.luminance[k]!;
      if (cdM2 < 0) continue;
      const a = (((k % VIEW_PX) + 0.5) / VIEW_PX) * 2 - 1;
      const b = 1 - ((Math.floor(k / VIEW_PX) + 0.5) / VIEW_PX) * 2;
      const counted = a * a + b * b <= view.coneRadius * view.coneRadius;
      const share = Math.max(0, 1 + Math.log(Math.max(cdM2, 1e-9) / white) / Math.log(RAMP));
      image.data.fill(255 * share * (counted ? 1 : OUTSIDE), k * 4, k * 4 + 3);
      image.data[k * 4 + 3] = 255;
    }
    context.putImageData(image, 0, 0);
  }, [view]);
  const path = (points: readonly [number, number][]) =>
    `M${points.map(([x, y]) => `${x.toFixed(3)} ${(-y).toFixed(3)}`).join('L')}z`;
  return (
    <div className={styles.view} role="img" aria-label={label}>
      <canvas ref={canvas} width={VIEW_PX} height={VIEW_PX} />
      <svg viewBox="-1 -1 2 2" aria-hidden="true">
        {view.outlines.map(({ kind, points }, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: outlines keep their order
          <path key={i} d={path(points)} className={styles[kind]} />
        ))}
        <circle r={view.coneRadius} className={styles.ringEdge} />
        <circle r={view.coneRadius} className={styles.ring} />
      </svg>
    </div>
  );
}

function Bars({ caption, parts }: { caption: string; parts: Part[] }) {
  const whole = wholeParts(parts.map(({ lx }) => lx));
  const most = Math.max(1, ...whole);
  const shown = parts.map((part, i) => ({ ...part, whole: whole[i]! })).filter(({ lx }) => lx > 0);
  return (
    <table className={styles.bars}>
      <caption>{caption}</caption>
      <tbody>
        {shown.map(({ name, whole: lx }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td aria-hidden="true">
              <div className={styles.bar} style={{ width: `${(100 * lx) / most}%` }} />
            </td>
            <td>{grouped(lx)} lx</td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">{viewWords.sum}</th>
          <td aria-hidden="true" />
          <td>{grouped(whole.reduce((sum, lx) => sum + lx, 0))} lx</td>
        </tr>
      </tfoot>
    </table>
  );
}
