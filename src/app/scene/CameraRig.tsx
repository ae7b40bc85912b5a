/** Puts the eye at the chosen station, eases between stations, adds the hand's limited orbit. */
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useRef } from 'react';
import type { PerspectiveCamera } from 'three';
import type { RoomSpec } from '../../engine/types.ts';
import { useApp } from '../state/store.ts';
import {
  blendEyes,
  EASE_MS,
  type Eye,
  eased,
  type Margins,
  marginsFor,
  placeCamera,
  shiftFrustum,
  stationEye,
} from './camera.ts';
import { reducedMotion } from './motion.ts';

/** The hand's part of the view, degrees from the station. Written by the pointer. */
export interface Orbit {
  azimuthDeg: number;
  elevationDeg: number;
}

interface Flight {
  from: Eye;
  fromShift: [number, number];
  startMs: number;
}

export function CameraRig({ room, orbit, margins }: { room: RoomSpec; orbit: Orbit; margins: Margins | undefined }) {
  const station = useApp((s) => s.station);
  const legend = useApp((s) => s.overlay !== 'none' && s.lecture === null);
  const camera = useThree((s) => s.camera) as PerspectiveCamera;
  const size = useThree((s) => s.size);
  const invalidate = useThree((s) => s.invalidate);
  const shown = useRef<{ eye: Eye; shift: [number, number] } | null>(null);
  const flight = useRef<Flight | null>(null);
  const aim = useRef<{ eye: Eye; shift: [number, number] } | null>(null);
  const lastStation = useRef(station);
  const lastLegend = useRef(legend);

  useEffect(() => {
    const fit = margins ?? marginsFor(station, size.width, size.height, legend);
    aim.current = stationEye(room, station, size.width / Math.max(size.height, 1), fit);
    const moved = lastStation.current !== station || lastLegend.current !== legend;
    if (moved && shown.current && !reducedMotion()) {
      flight.current = { from: shown.current.eye, fromShift: shown.current.shift, startMs: performance.now() };
    }
    if (lastStation.current !== station) Object.assign(orbit, { azimuthDeg: 0, elevationDeg: 0 });
    lastStation.current = station;
    lastLegend.current = legend;
    invalidate();
  }, [room, station, size.width, size.height, margins, legend, orbit, invalidate]);

  useFrame(() => {
    if (!aim.current) return;
    const { eye, shift } = aim.current;
    let now = {
      ...eye,
      azimuthDeg: eye.azimuthDeg + orbit.azimuthDeg,
      elevationDeg: eye.elevationDeg + orbit.elevationDeg,
    };
    let nowShift = shift;
    const f = flight.current;
    if (f) {
      const share = Math.min((performance.now() - f.startMs) / EASE_MS, 1);
      const k = eased(share);
      now = blendEyes(f.from, now, k);
      nowShift = [f.fromShift[0] + (shift[0] - f.fromShift[0]) * k, f.fromShift[1] + (shift[1] - f.fromShift[1]) * k];
      if (share >= 1) flight.current = null;
      else invalidate();
    }
    shown.current = { eye: now, shift: nowShift };
    placeCamera(camera, now);
    shiftFrustum(camera, nowShift);
  }, -3);
  return null;
}
