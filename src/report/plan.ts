/** Plan of the room at an instant, as SVG text: cut walls, furniture, lamps, people, sun, tags. Survives a copier. */
import type { FurnitureSpec, LuminaireSpec, PointM, RoomSpec, RowId } from '../engine/types.ts';
import { type PlanScale, planScale, sunPatch, WALL_M, wallEnds } from './planGeometry.ts';
import { CHANNEL, INK, n2, outline, SUN, tag, text } from './svg.ts';
import { en } from './text/en.ts';
import type { Moment } from './words.ts';

export interface PlanBox {
  x: number;
  y: number;
  widthPx: number;
  heightPx: number;
}

/** The plan drawn into the box; a group of its own. */
export function planGroup(moment: Moment, box: PlanBox): string {
  const scale = planScale(moment.scenario.room, box.widthPx, box.heightPx);
  const body = [
    ...walls(moment.scenario.room, scale),
    ...sun(moment, scale),
    ...openings(moment, scale),
    ...moment.setup.furniture.map((piece) => furniture(piece, scale)),
    ...moment.scenario.room.luminaires.map((lamp) => luminaire(lamp, moment.frame.lamps[lamp.row] > 0.02, scale)),
    ...people(moment, scale),
    ...detector(moment, scale),
    ...deskTags(moment, scale),
  ];
  return tag('g', { transform: `translate(${n2(box.x)} ${n2(box.y)})` }, `\n${body.join('\n')}\n`);
}

function walls(room: RoomSpec, scale: PlanScale): string[] {
  const wall = WALL_M * scale.pxPerM;
  const [x, y] = [scale.x(0), scale.y(room.depthM)];
  const [width, height] = [room.widthM * scale.pxPerM, room.depthM * scale.pxPerM];
  return [
    tag('rect', { x: x - wall, y: y - wall, width: width + 2 * wall, height: height + 2 * wall, fill: INK }),
    tag('rect', { x, y, width, height, fill: '#FFFFFF' }),
  ];
}

/** Flat patches where the sun falls on the floor, cut at the walls. Furniture's shadow is left to the picture. */
function sun({ scenario, frame }: Moment, scale: PlanScale): string[] {
  const { room } = scenario;
  const patches = room.windows.flatMap((window) => {
    const patch = sunPatch(room, window, frame.sun);
    return patch ? [patch.map(([x, y]): PointM => [scale.x(x), scale.y(y)])] : [];
  });
  if (patches.length === 0) return [];
  const [x, y] = [scale.x(0), scale.y(room.depthM)];
  const floor = { x, y, width: room.widthM * scale.pxPerM, height: room.depthM * scale.pxPerM };
  return [
    tag('clipPath', { id: 'floor' }, tag('rect', floor)),
    tag('path', { d: patches.map(outline).join(''), fill: SUN, 'clip-path': 'url(#floor)' }),
  ];
}

function openings({ scenario, setup }: Moment, scale: PlanScale): string[] {
  const { room } = scenario;
  const gap = (o: { wall: string; fromM: number; widthM: number }) => {
    const [a, b] = wallEnds(room, o);
    const wall = WALL_M * scale.pxPerM;
    const outX = o.wall === 'left' ? -wall : 0;
    const outY = o.wall === 'back' ? -wall : 0;
    const along = o.wall === 'back' || o.wall === 'front';
    const x = Math.min(scale.x(a[0]), scale.x(b[0])) + outX;
    const y = Math.min(scale.y(a[1]), scale.y(b[1])) + outY;
    const length = o.widthM * scale.pxPerM;
    return { x, y, width: along ? length : wall, height: along ? wall : length };
  };
  const windows = room.windows.map((w) =>
    tag('rect', { ...gap(w), fill: '#FFFFFF', stroke: INK, 'stroke-width': 1.5 }),
  );
  const doors = room.doors.map((door) => {
    const open = setup.doors.find((d) => d.doorId === door.id)?.open ?? door.openAtStart;
    const [a, b] = wallEnds(room, door);
    const inward = door.wall === 'left' || door.wall === 'front' ? 1 : -1;
    const along = door.wall === 'back' || door.wall === 'front';
    const swung: PointM = along ? [b[0], b[1] + inward * door.widthM] : [b[0] + inward * door.widthM, b[1]];
    const end = open ? swung : a;
    const leaf = `M${n2(scale.x(b[0]))} ${n2(scale.y(b[1]))}L${n2(scale.x(end[0]))} ${n2(scale.y(end[1]))}`;
    return tag('rect', { ...gap(door), fill: '#FFFFFF' }) + tag('path', { d: leaf, stroke: INK, 'stroke-width': 3 });
  });
  return [...windows, ...doors];
}

function furniture(piece: FurnitureSpec, scale: PlanScale): string {
  const width = piece.widthM * scale.pxPerM;
  const height = Math.max(piece.depthM, 0.05) * scale.pxPerM;
  const round = piece.kind === 'chair' ? Math.min(width, height) * 0.28 : piece.kind === 'plant' ? width / 2 : 0;
  const at = `translate(${n2(scale.x(piece.atM[0]))} ${n2(scale.y(piece.atM[1]))}) rotate(${piece.turnDeg})`;
  const solid = piece.kind === 'screen' || piece.kind === 'whiteboard';
  return tag('rect', {
    x: -width / 2,
    y: -height / 2,
    width,
    height,
    rx: round,
    transform: at,
    fill: solid ? INK : 'none',
    stroke: INK,
    'stroke-width': 1.2,
    ...(piece.kind === 'glassScreen' ? { 'stroke-dasharray': '4 3' } : {}),
  });
}

const ROW_COLOUR: Record<RowId, string> = { inner: CHANNEL.innerRow, window: CHANNEL.windowRow };

/** Lit: solid with rays; off: hollow. The colour only helps. */
function luminaire(lamp: LuminaireSpec, lit: boolean, scale: PlanScale): string {
  const length = lamp.lengthM * scale.pxPerM;
  const rays = [0.1, 0.3, 0.5, 0.7, 0.9].map((share) => `M${n2(length * (share - 0.5))} -8v-6m0 22v6`).join('');
  const stroke = ROW_COLOUR[lamp.row];
  const bar = { x: -length / 2, y: -4.5, width: length, height: 9, rx: 4.5, fill: lit ? stroke : '#FFFFFF', stroke };
  const at = `translate(${n2(scale.x(lamp.atM[0]))} ${n2(scale.y(lamp.atM[1]))}) rotate(${lamp.turnDeg})`;
  const drawn =
    tag('rect', { ...bar, 'stroke-width': 2 }) + (lit ? tag('path', { d: rays, stroke, 'stroke-width': 2 }) : '');
  return tag('g', { transform: at }, drawn);
}

function people({ frame }: Moment, scale: PlanScale): string[] {
  return frame.people
    .filter((person) => person.present)
    .map(({ id, atM, headingDeg }) => {
      const at = `translate(${n2(scale.x(atM[0]))} ${n2(scale.y(atM[1]))})`;
      const body = tag('ellipse', { rx: 13, ry: 7.5, fill: '#2B4468', transform: `rotate(${n2(headingDeg)})` });
      const nose = tag('path', {
        d: 'M0 -7v-8',
        stroke: '#2B4468',
        'stroke-width': 3,
        transform: `rotate(${n2(headingDeg)})`,
      });
      const letter = tag('circle', { cx: 16, cy: -16, r: 10, fill: INK });
      const name = text(16, -11, id, { fill: '#FFFFFF', 'text-anchor': 'middle', 'font-weight': 700 });
      return tag('g', { transform: at }, body + nose + letter + name);
    });
}

/** Disc with its three pips, and both daylight estimates on diamonds that carry their name. */
function detector({ setup, frame }: Moment, scale: PlanScale): string[] {
  const [x, y] = [scale.x(setup.mount.atM[0]), scale.y(setup.mount.atM[1])];
  const pip = (dx: number, on: boolean) =>
    tag('circle', { cx: x + dx, cy: y, r: 3.2, fill: on ? INK : '#FFFFFF', stroke: INK });
  const diamond = (row: RowId, dx: number, dy: number) => {
    const lux = `${Math.round(frame.light[row].daylightEstimateLx / 5) * 5} lx`;
    const [cx, cy] = [x + dx, y + dy];
    const stroke = ROW_COLOUR[row];
    const shape: [number, number][] = [
      [cx, cy - 28],
      [cx + 28, cy],
      [cx, cy + 28],
      [cx - 28, cy],
    ];
    const label = `${en.words[row]}: ${en.words.daylightEstimate}`;
    return [
      tag('path', { d: `M${n2(x)} ${n2(y)}L${n2(cx)} ${n2(cy)}`, stroke, 'stroke-width': 1.5 }),
      tag('path', { d: outline(shape), fill: '#FFFFFF', stroke, 'stroke-width': 2 }),
      text(cx, cy + 5, lux, { 'text-anchor': 'middle', 'font-weight': 700, fill: stroke, 'font-size': 14 }),
      text(cx, dy < 0 ? cy - 34 : cy + 44, label, {
        'text-anchor': 'middle',
        fill: stroke,
        'font-size': 14,
        'paint-order': 'stroke',
        stroke: '#FFFFFF',
        'stroke-width': 4,
      }),
    ];
  };
  return [
    ...diamond('window', -60, -52),
    ...diamond('inner', 60, 52),
    tag('circle', { cx: x, cy: y, r: 13, fill: '#FFFFFF', stroke: INK, 'stroke-width': 2 }),
    pip(-7.5, frame.pips.movement),
    pip(0, frame.pips.light),
    pip(7.5, frame.pips.air),
  ];
}

/** Round tags: light at a place, as a hand meter reads it, to the next 5 lx. */
function deskTags({ scenario, frame }: Moment, scale: PlanScale): string[] {
  return scenario.room.deskPoints.map((point, i) => {
    const [x, y] = [scale.x(point.atM[0]), scale.y(point.atM[1])];
    const lux = String(Math.round((frame.deskLx[i] ?? 0) / 5) * 5);
    return [
      tag('circle', { cx: x, cy: y, r: 21, fill: '#FFFFFF', stroke: INK, 'stroke-width': 1.5 }),
      text(x, y + 1, lux, { 'text-anchor': 'middle', 'font-weight': 700, 'font-size': 14 }),
      text(x, y + 14, 'lx', { 'text-anchor': 'middle', 'font-size': 14 }),
    ].join('');
  });
}
