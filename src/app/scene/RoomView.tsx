/** Room View: the room as a card model on the page's table, lit by the engine's own lux. Fills its parent. */
import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import type { OutputId, Scenario } from '../../engine/types.ts';
import { en } from '../../report/text/en.ts';
import { useApp } from '../state/store.ts';
import type { Orbit } from './CameraRig.tsx';
import { ContextWatch } from './ContextWatch.tsx';
import type { Margins } from './camera.ts';
import { PrintImage } from './PrintImage.tsx';
import { createPointerState, usePointer } from './pointer.ts';
import { isSoftwareGl, QualityLadder, startDpr } from './quality.tsx';
import { createResources, disposeResources, ResourcesContext } from './resources.ts';
import { SceneCanvas } from './SceneCanvas.tsx';
import { Stage } from './Stage.tsx';
import styles from './scene.module.css';
import { createTagBoard } from './tags/board.ts';
import { TagLayer } from './tags/TagLayer.tsx';

export interface RoomViewProps {
  scenario: Scenario;
  /** Badge and words of an output, drawn beside its leader line. Without it: the words alone. */
  outputLabel?: (output: OutputId) => ReactNode;
  /** Share of the stage that the page's own words take at each side; left out: as on the working stage. */
  margins?: Margins | undefined;
}

export default function RoomView({ scenario, outputLabel, margins }: RoomViewProps) {
  const software = useMemo(isSoftwareGl, []);
  const resources = useMemo(() => createResources(software), [software]);
  const ratio = useRef(startDpr(software));
  const board = useMemo(createTagBoard, []);
  const orbit = useMemo<Orbit>(() => ({ azimuthDeg: 0, elevationDeg: 0 }), []);
  const pointer = useMemo(createPointerState, []);
  useEffect(() => () => disposeResources(resources), [resources]);
  const [lost, setLost] = useState(false);
  const theme = useApp((s) => s.theme);
  const hand = usePointer(pointer, orbit, scenario);
  return (
    <div className={styles.stage} data-table={theme} data-software-gl={software}>
      <div className={styles.canvas} ref={hand.host} {...hand.handlers}>
        <SceneCanvas ratio={ratio} label={en.stage.roomLabel(scenario.title)}>
          <ResourcesContext value={resources}>
            <Stage scenario={scenario} orbit={orbit} margins={margins} board={board} pointer={pointer} />
          </ResourcesContext>
          <ContextWatch onLost={setLost} />
          <PrintImage />
          <QualityLadder software={software} ratio={ratio} />
        </SceneCanvas>
      </div>
      {lost && (
        <p className={styles.lost} role="status">
          {en.stage.roomBack}
        </p>
      )}
      <TagLayer scenario={scenario} board={board} outputLabel={outputLabel} />
    </div>
  );
}
