/** Everything inside the Canvas, turned once from room axes to three's. */
import { useMemo } from 'react';
import { corridorsUsed } from '../../engine/room/corridor.ts';
import type { Scenario } from '../../engine/types.ts';
import { useApp } from '../state/store.ts';
import { CameraRig, type Orbit } from './CameraRig.tsx';
import { Conductor } from './Conductor.tsx';
import type { Margins } from './camera.ts';
import { FieldKeeper } from './FieldKeeper.tsx';
import { Glass, TableShade } from './Glass.tsx';
import { Held } from './Held.tsx';
import { Ladders } from './Ladders.tsx';
import { LightLines } from './lines/LightLines.tsx';
import { ModelLines } from './ModelLines.tsx';
import type { ModelInput } from './model/roomModel.ts';
import { Footprints } from './overlay/Footprints.tsx';
import { Marks } from './overlay/Marks.tsx';
import { Reach } from './overlay/Reach.tsx';
import { SightMap } from './overlay/SightMap.tsx';
import { PlaneLine, SightShade } from './overlay/SightShade.tsx';
import { SunPaths } from './overlay/SunPaths.tsx';
import { WalkLine } from './overlay/WalkLine.tsx';
import { WarmthMap } from './overlay/WarmthMap.tsx';
import { People } from './People.tsx';
import { Ghost, PointerEye } from './PointerEye.tsx';
import type { PointerState } from './pointer.ts';
import { RoomMesh } from './RoomMesh.tsx';
import type { TagBoard } from './tags/board.ts';
import { IsolinePlacer } from './tags/IsolineTags.tsx';
import { TagProjector } from './tags/TagProjector.tsx';
import { WarmthPlacer } from './tags/WarmthTags.tsx';

/** A value that keeps its identity while it says the same: setup comes anew with every act. */
function useSettled<T>(value: T): T {
  const text = JSON.stringify(value);
  // biome-ignore lint/correctness/useExhaustiveDependencies: equal text, equal value
  return useMemo(() => value, [text]);
}

function useModelInput(scenario: Scenario): ModelInput {
  const setup = useApp((s) => s.setup);
  const furniture = useSettled(setup?.furniture ?? scenario.room.furniture);
  const reflectance = useSettled(setup?.reflectance ?? scenario.room.reflectance);
  const doors = useSettled(setup?.doors ?? []);
  const blinds = useSettled(setup?.blinds ?? []);
  const luminaires = useSettled(setup?.luminaires ?? scenario.room.luminaires);
  const room = useMemo(() => ({ ...scenario.room, luminaires }), [scenario.room, luminaires]);
  const mount = useSettled(setup?.mount ?? scenario.mount);
  const warmThings = useSettled(setup?.warmThings ?? scenario.warmThings);
  const walked = useMemo(() => corridorsUsed(scenario), [scenario]);
  return useMemo(
    () => ({ room, furniture, reflectance, doors, blinds, mount, warmThings, walked }),
    [room, furniture, reflectance, doors, blinds, mount, warmThings, walked],
  );
}

interface StageProps {
  scenario: Scenario;
  orbit: Orbit;
  margins: Margins | undefined;
  board: TagBoard;
  pointer: PointerState;
}

export function Stage({ scenario, orbit, margins, board, pointer }: StageProps) {
  const input = useModelInput(scenario);
  const overlay = useApp((s) => s.overlay);
  const paths = useApp((s) => s.pathsShown);
  const { room } = input;
  return (
    <>
      <CameraRig room={room} orbit={orbit} margins={margins} />
      <Conductor room={room} furniture={input.furniture} />
      <group rotation={[-Math.PI / 2, 0, 0]}>
        <TableShade room={room} />
        <FieldKeeper room={room}>
          <RoomMesh input={input} />
        </FieldKeeper>
        <People />
        <Ladders />
        <Glass room={room} furniture={input.furniture} />
        <ModelLines room={room} mount={input.mount} />
        <Held mount={input.mount} />
        {overlay === 'sight' && <SightMap room={room} mount={input.mount} />}
        {overlay === 'sight' && <SightShade mount={input.mount} />}
        {overlay === 'sight' && <PlaneLine room={room} mount={input.mount} />}
        {overlay === 'sight' && <Marks />}
        {overlay === 'sight' && <Footprints model={scenario.detectorModel} mount={input.mount} room={room} />}
        {overlay === 'light' && <LightLines furniture={input.furniture} />}
        {overlay === 'warmth' && <WarmthMap eye={[...input.mount.atM, input.mount.heightM]} />}
        <Reach />
        {paths && <SunPaths room={room} board={board} />}
        <WalkLine />
        <Ghost pointer={pointer} />
      </group>
      {overlay === 'light' && <IsolinePlacer board={board} room={room} furniture={input.furniture} />}
      {overlay === 'warmth' && <WarmthPlacer board={board} />}
      <PointerEye pointer={pointer} />
      <TagProjector board={board} room={room} mount={input.mount} />
    </>
  );
}
