/** Readings at their places: round = light at a place, diamond = a quantity of the detector, always named. */
import type { RowId } from '../engine/types.ts';
import { clothPath, torchPaths } from './heldShape.ts';
import type { Moment, RoomMoment } from './moment.ts';
import { outputOf } from './palette.ts';
import {
  type Box,
  bestPlace,
  boxAround,
  type Candidate,
  LABEL_WEIGHT,
  type Obstacle,
  placeRound,
  type Spot,
} from './places.ts';
import { LETTER_OFFSET_PX, LETTER_R_PX } from './planLife.ts';
import { floorBox, type PlanPaper } from './planRoom.ts';
import { circle, line, n2, outline, tag, text } from './svg.ts';
import { en } from './text/en.ts';
import { luxNumber } from './text/format.ts';
import { rowName } from './text/names.ts';

const LABEL_W = 150;
const LABEL_H = 46;
const DETECTOR_R = 17;
const TAG_R = 26;

/** Radii that hold the number: four figures and more need room. */
const diamondRadius = (lux: string): number => (lux.length > 5 ? 46 : lux.length > 3 ? 40 : 34);
const tagRadius = (lux: string): number => (lux.length > 5 ? 36 : lux.length > 3 ? 30 : TAG_R);

/** Weights of what labels should not cover. Assumed: people before lamps before labels' own points before furniture. */
const WEIGHT = { label: LABEL_WEIGHT, person: 5, detector: 5, lamp: 2, point: 4, chair: 0.3 } as const;

function obstaclesOf({ scenario, setup, frame }: Moment, { scale }: PlanPaper): Obstacle[] {
  const at = (p: readonly [number, number]): [number, number] => [scale.x(p[0]), scale.y(p[1])];
  const k = scale.pxPerM;
  const present = frame.people.filter((person) => person.present);
  return [
    ...present.flatMap((person): Obstacle[] => {
      const [x, y] = at(person.atM);
      const letter = boxAround(x + LETTER_OFFSET_PX, y - LETTER_OFFSET_PX, LETTER_R_PX + 2);
      return [
        { box: boxAround(x, y, 0.3 * k), weight: WEIGHT.person },
        { box: letter, weight: WEIGHT.person },
      ];
    }),
    ...(setup.luminaires ?? scenario.room.luminaires).map((lamp): Obstacle => {
      const half = (lamp.lengthM * k) / 2;
      const [w, h] = lamp.turnDeg === 0 ? [half, 18] : [18, half];
      return { box: boxAround(...at(lamp.atM), w, h), weight: WEIGHT.lamp };
    }),
    ...scenario.room.deskPoints.map(
      (point): Obstacle => ({ box: boxAround(...at(point.atM), 7), weight: WEIGHT.point }),
    ),
    ...setup.furniture
      .filter((piece) => piece.kind === 'chair')
      .map((piece): Obstacle => ({ box: boxAround(...at(piece.atM), piece.widthM * k * 0.5), weight: WEIGHT.chair })),
    { box: boxAround(...at(setup.mount.atM), DETECTOR_R + 8), weight: WEIGHT.detector },
  ];
}

interface DiamondPlace {
  x: number;
  y: number;
  /** The label stands on this side. */
  side: 1 | -1;
}

function diamondBoxes({ x, y, side }: DiamondPlace, radius: number): Box[] {
  const labelX = x + side * (radius + LABEL_W / 2);
  return [boxAround(x, y, radius), boxAround(labelX, y, LABEL_W / 2, LABEL_H / 2)];
}

/** The window row's diamond lies towards the windows, the inner row's away from them. */
function diamondCandidates(row: RowId, at: Spot, radius: number): Candidate<DiamondPlace>[] {
  const up = row === 'window' ? -1 : 1;
  return [56, 80, 110].flatMap((dy) =>
    [64, 96, 150].flatMap((dx) =>
      ([row === 'window' ? -1 : 1, row === 'window' ? 1 : -1] as const).map((side): Candidate<DiamondPlace> => {
        const value = { x: at.x + side * dx, y: at.y + up * dy, side };
        return { value, boxes: diamondBoxes(value, radius), farPx: dx + dy };
      }),
    ),
  );
}

/** Detector with its diamonds, and the round tags, placed so that they keep clear of people and lamps. */
export function tags(moment: Moment, paper: PlanPaper): string[] {
  const { scenario, setup, frame } = moment;
  const { scale } = paper;
  const floor = floorBox(scenario.room, scale);
  const inside = { left: floor.x, right: floor.x + floor.width, top: floor.y, bottom: floor.y + floor.height };
  const obstacles = obstaclesOf(moment, paper);
  const at = { x: scale.x(setup.mount.atM[0]), y: scale.y(setup.mount.atM[1]) };
  const diamonds = (['window', 'inner'] as const).flatMap((row) => {
    const lux = luxNumber(frame.light[row].daylightEstimateLx);
    const radius = diamondRadius(lux);
    const { value, boxes } = bestPlace(diamondCandidates(row, at, radius), obstacles, inside);
    for (const box of boxes) obstacles.push({ box, weight: WEIGHT.label });
    return diamond(row, lux, at, value, radius, paper);
  });
  const desks = scenario.room.deskPoints.map(({ atM }, i) => {
    const lux = luxNumber(frame.deskLx[i] ?? 0);
    return { lux, x: scale.x(atM[0]), y: scale.y(atM[1]), radiusPx: tagRadius(lux) };
  });
  const spots = placeRound(desks, obstacles, inside);
  const rounds = desks.flatMap((desk, i) => deskTag(desk.lux, desk, spots[i]!, paper));
  return [...rounds, ...diamonds, ...detector(moment, at, paper)];
}

function deskTag(lux: string, point: Spot, spot: Spot, { palette }: PlanPaper): string[] {
  const { ink } = palette;
  const middle = { 'text-anchor': 'middle' };
  return [
    line(`M${n2(point.x)} ${n2(point.y)}L${n2(spot.x)} ${n2(spot.y)}`, ink, 1.5),
    circle(point.x, point.y, 4.5, { fill: '#FFFFFF', stroke: ink, 'stroke-width': 2 }),
    circle(spot.x, spot.y, tagRadius(lux), { fill: '#FFFFFF', stroke: ink, 'stroke-width': 1.6 }),
    text(spot.x, spot.y + 3, lux, { ...middle, 'font-weight': 680, 'font-size': 18 }),
    text(spot.x, spot.y + 19, 'lx', { ...middle, 'font-size': 17, fill: palette.soft }),
  ];
}

function diamond(row: RowId, lux: string, at: Spot, place: DiamondPlace, r: number, { palette }: PlanPaper): string[] {
  const { x, y, side } = place;
  const stroke = palette.channel[outputOf(row)];
  const labelX = side > 0 ? x + r - 4 : x - r + 4 - LABEL_W;
  const middle = { 'text-anchor': 'middle', fill: stroke };
  const label = { x: labelX, y: y - LABEL_H / 2, width: LABEL_W, height: LABEL_H, rx: 3 };
  const corners = [
    [x, y - r],
    [x + r, y],
    [x, y + r],
    [x - r, y],
  ] as const;
  return [
    line(`M${n2(at.x)} ${n2(at.y)}L${n2(x)} ${n2(y)}`, stroke, 1.5),
    tag('rect', { ...label, fill: '#FFFFFF', stroke, 'stroke-width': 1.5 }),
    text(labelX + LABEL_W / 2, y - 4, rowName[row], { ...middle, 'font-weight': 680 }),
    text(labelX + LABEL_W / 2, y + 15, en.words.daylightEstimate, middle),
    tag('path', { d: outline(corners), fill: '#FFFFFF', stroke, 'stroke-width': 2.6 }),
    text(x, y + 3, lux, { ...middle, 'font-weight': 700, 'font-size': 18 }),
    text(x, y + 20, 'lx', { 'text-anchor': 'middle', fill: palette.soft }),
  ];
}

/** What a hand holds to the detector: a cloth over disc and pips, a torch with its beam. */
function heldBefore({ held }: Moment['frame'], { x, y }: Spot, { ink, sun }: PlanPaper['palette']): string[] {
  const at = { transform: `translate(${n2(x)} ${n2(y)}) scale(1.2)`, stroke: ink, 'stroke-width': 1.4 };
  const torch = held.torch ? torchPaths(held.torch.side) : null;
  return [
    ...(held.cloth ? [tag('path', { ...at, d: clothPath(), fill: '#A9A59B' })] : []),
    ...(torch ? [tag('path', { ...at, d: torch.beam, fill: sun ?? '#FFFFFF', 'stroke-dasharray': '3 2' })] : []),
    ...(torch ? [tag('path', { ...at, d: torch.lamp, fill: ink })] : []),
  ];
}

/** Disc with its three pips; the arrow shows how it was mounted. */
export function detector(
  { setup, frame }: Pick<RoomMoment, 'setup' | 'frame'>,
  { x, y }: Spot,
  { palette }: PlanPaper,
): string[] {
  const { ink } = palette;
  const pip = (dx: number, on: boolean): string =>
    circle(x + dx, y, 3.4, { fill: on ? ink : '#FFFFFF', stroke: ink, 'stroke-width': 1.4 });
  const turned = { transform: `translate(${n2(x)} ${n2(y)}) rotate(${n2(setup.mount.turnDeg)})` };
  return [
    tag('g', turned, line(`M0 ${-DETECTOR_R}v-6M-5 ${-DETECTOR_R - 4}l5 -6l5 6`, ink, 2)),
    circle(x, y, DETECTOR_R, { fill: '#FFFFFF', stroke: ink, 'stroke-width': 2.6 }),
    pip(-8.5, frame.pips.movement),
    pip(0, frame.pips.light),
    pip(8.5, frame.pips.air),
    ...heldBefore(frame, { x, y }, palette),
  ];
}
