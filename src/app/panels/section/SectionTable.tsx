/** The text twin of the side section: each cell of the plane with its distances and what it ends on. */
import type { SideSection } from '../../../engine/detection/sideSection.ts';
import type { Scenario } from '../../../engine/types.ts';
import { sectionSpan, sectionWords, wallInSection } from '../../../report/text/section.ts';
import { useApp } from '../../state/store.ts';
import { endsOn, wallAt } from './layout.ts';

export function SectionTable({ section, scenario }: { section: SideSection; scenario: Scenario }) {
  const mount = useApp((s) => s.setup?.mount ?? scenario.mount);
  const furniture = useApp((s) => s.setup?.furniture ?? scenario.room.furniture);
  const [from, to] = section.alongM;
  if (section.cells.length === 0) return <p>{sectionWords.nothing}</p>;
  const span = (along: readonly [number, number]): string =>
    Math.max(...along) > to || Math.min(...along) < from ? sectionWords.beyond : sectionSpan(along);
  return (
    <table aria-label={sectionWords.table}>
      <thead>
        <tr>
          {[sectionWords.towards, sectionWords.half, sectionWords.floor, sectionWords.desk, sectionWords.ends].map(
            (head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ),
          )}
        </tr>
      </thead>
      <tbody>
        {section.cells.map((cell) => (
          <tr key={`${cell.channel}${cell.polarity}${cell.edgesRad[0]}`}>
            <td>
              {wallInSection[wallAt(scenario.room, mount.atM, section.bearingDeg, cell.edgesRad[0] < 0 ? from : to)]}
            </td>
            <td>
              {cell.polarity === 1 ? sectionWords.plus : sectionWords.minus}
              {cell.masked && `, ${sectionWords.masked}`}
            </td>
            <td>{span(cell.floorM)}</td>
            <td>{span(cell.deskM)}</td>
            <td>{endsOn(cell, section, furniture)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
