/** Shape of rooms: files in scenarios/rooms, and rooms written into a story. */
import * as z from 'zod/mini';
import type {
  DoorSpec,
  FaceId,
  FurnitureSpec,
  LuminaireSpec,
  RoomSpec,
  WallId,
  WindowSpec,
} from '../../engine/types.ts';
import { between, format, list, oneOf, optional, point, schemaAddress, shape, slug, text, yesNo } from './words.ts';

/** Most luminaires in one room. Source: the product's own limits. */
export const MAX_LUMINAIRES = 12;
/** Most pieces of furniture. Assumed: more makes the light tables slow, fewer leaves no ordinary office. */
export const MAX_FURNITURE = 60;

export const WALLS = ['front', 'back', 'left', 'right'] as const satisfies readonly WallId[];
export const FACES = ['front', 'back', 'left', 'right', 'floor', 'ceiling'] as const satisfies readonly FaceId[];

/** How a lamp spreads its light: one of the engine's formulas. */
export const lampDistribution = () => oneOf(['lambert', 'cosine3', 'batwing']);

/** A share between nothing and everything. */
export const share = () => between(0, 1, '');
/** No real surface reflects everything; at 0.95 the room still settles. */
export const reflectance = () => between(0, 0.95, '');

const windowSpec = shape(
  {
    id: slug(),
    wall: oneOf(WALLS),
    fromM: between(0, 30, 'm'),
    widthM: between(0.2, 30, 'm'),
    sillM: between(0, 5, 'm'),
    headM: between(0.2, 6, 'm'),
    transmittance: share(),
    frameFactor: share(),
    dirtFactor: share(),
    revealM: between(0, 1, 'm'),
  },
  'a window',
) satisfies z.ZodMiniType<WindowSpec>;

const doorSpec = shape(
  {
    id: slug(),
    wall: oneOf(WALLS),
    fromM: between(0, 30, 'm'),
    widthM: between(0.5, 4, 'm'),
    headM: between(1.8, 4, 'm'),
    openAtStart: yesNo(),
    corridorLx: between(0, 2000, 'lx'),
  },
  'a door',
) satisfies z.ZodMiniType<DoorSpec>;

const quarterTurn = z.union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)], {
  error: 'one of 0, 90, 180, 270 degrees',
});

export const furnitureSpec = shape(
  {
    id: slug(),
    kind: oneOf(['desk', 'table', 'chair', 'shelf', 'cabinet', 'screen', 'glassScreen', 'whiteboard', 'plant']),
    atM: point(),
    turnDeg: quarterTurn,
    widthM: between(0.05, 6, 'm'),
    depthM: between(0.02, 3, 'm'),
    heightM: between(0.3, 4, 'm'),
    reflectance: reflectance(),
  },
  'a piece of furniture',
) satisfies z.ZodMiniType<FurnitureSpec>;

const luminaireSpec = shape(
  {
    id: slug(),
    row: oneOf(['inner', 'window']),
    atM: point(),
    heightM: between(1.5, 6, 'm'),
    lengthM: between(0.1, 6, 'm'),
    widthM: between(0.02, 2, 'm'),
    turnDeg: z.union([z.literal(0), z.literal(90)], { error: 'one of 0, 90 degrees' }),
    fluxLm: between(100, 20000, 'lm'),
    distribution: lampDistribution(),
    upShare: share(),
  },
  'a luminaire',
) satisfies z.ZodMiniType<LuminaireSpec>;

const deskPoint = shape(
  {
    id: slug(),
    label: text(1, 24),
    row: oneOf(['inner', 'window']),
    atM: point(),
    heightM: between(0, 2, 'm'),
  },
  'a desk point',
);

export const reflectances = shape(
  {
    front: reflectance(),
    back: reflectance(),
    left: reflectance(),
    right: reflectance(),
    floor: reflectance(),
    ceiling: reflectance(),
  },
  'reflectances of the six faces',
);

const roomKeys = {
  widthM: between(1.5, 30, 'm'),
  depthM: between(1.5, 30, 'm'),
  heightM: between(2, 6, 'm'),
  backWallFacesDeg: between(0, 360, 'degrees'),
  reflectance: reflectances,
  windows: list(windowSpec, 'windows', 12),
  doors: list(doorSpec, 'doors', 4, 1),
  furniture: list(furnitureSpec, 'pieces of furniture', MAX_FURNITURE),
  luminaires: list(luminaireSpec, 'luminaires', MAX_LUMINAIRES),
  maintenanceFactor: between(0.3, 1, ''),
  deskPoints: list(deskPoint, 'desk points', 12),
  airTemperatureC: between(5, 40, 'degrees Celsius'),
  radiantTemperatureC: between(5, 40, 'degrees Celsius'),
};

/** A room written into a story. */
export const roomSpec = shape(roomKeys, 'a room') satisfies z.ZodMiniType<RoomSpec>;

/** A file in scenarios/rooms. */
export const roomFile = shape(
  { $schema: schemaAddress(), format: format(), id: slug(), title: text(1, 60), ...roomKeys },
  'a room',
);
export type RoomFile = z.infer<typeof roomFile>;

const opt = <T extends z.ZodMiniType>(schema: T) => optional(schema);

/** A room of the library with something changed: lists replace the base's list, furniture can be added and removed. */
export const changedRoom = shape(
  {
    base: slug(),
    heightM: opt(roomKeys.heightM),
    backWallFacesDeg: opt(roomKeys.backWallFacesDeg),
    reflectance: opt(
      shape(
        {
          front: opt(reflectance()),
          back: opt(reflectance()),
          left: opt(reflectance()),
          right: opt(reflectance()),
          floor: opt(reflectance()),
          ceiling: opt(reflectance()),
        },
        'reflectances of faces',
      ),
    ),
    windows: opt(roomKeys.windows),
    doors: opt(roomKeys.doors),
    furniture: opt(roomKeys.furniture),
    addFurniture: opt(list(furnitureSpec, 'pieces of furniture', MAX_FURNITURE)),
    removeFurniture: opt(list(slug(), 'ids of furniture', MAX_FURNITURE)),
    luminaires: opt(roomKeys.luminaires),
    maintenanceFactor: opt(roomKeys.maintenanceFactor),
    deskPoints: opt(roomKeys.deskPoints),
    airTemperatureC: opt(roomKeys.airTemperatureC),
    radiantTemperatureC: opt(roomKeys.radiantTemperatureC),
  },
  'a changed room with its "base"',
);
export type ChangedRoom = z.infer<typeof changedRoom>;
