/**
 * The one canvas. A root of our own with the few three classes that the scene names as elements: fiber's ready-made
 * Canvas registers all of three, which costs a weak connection 80 kB more.
 */
import { createRoot, extend, type ReconcilerRoot } from '@react-three/fiber';
import { Component, type ReactNode, useEffect, useInsertionEffect, useLayoutEffect, useRef, useState } from 'react';
import {
  CapsuleGeometry,
  Group,
  LineBasicMaterial,
  LineDashedMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  Points,
  RingGeometry,
} from 'three';
import { FIELD_OF_VIEW_DEG } from './camera.ts';

extend({
  CapsuleGeometry,
  Group,
  LineBasicMaterial,
  LineDashedMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  Points,
  RingGeometry,
});

/** Hands what breaks inside the root to whoever draws the canvas. */
class Catch extends Component<{ onError: (error: unknown) => void; children: ReactNode }, { broken: boolean }> {
  override state = { broken: false };
  static getDerivedStateFromError() {
    return { broken: true };
  }
  override componentDidCatch(error: unknown) {
    this.props.onError(error);
  }
  override render() {
    return this.state.broken ? null : this.props.children;
  }
}

interface Size {
  width: number;
  height: number;
  top: number;
  left: number;
}

/** Size of the parent, px; null until it is known, and while it has none (hidden). */
function useParentSize(canvas: { readonly current: HTMLCanvasElement | null }): Size | null {
  const [size, setSize] = useState<Size | null>(null);
  useLayoutEffect(() => {
    const parent = canvas.current?.parentElement;
    if (!parent) return;
    const measure = () => {
      const { clientWidth: width, clientHeight: height } = parent;
      if (width > 0 && height > 0) {
        setSize((s) => (s?.width === width && s.height === height ? s : { width, height, top: 0, left: 0 }));
      }
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(parent);
    return () => observer.disconnect();
  }, [canvas]);
  return size;
}

interface SceneCanvasProps {
  label: string;
  /** Pixel ratio in force; the quality ladder writes it. Left out, the root would choose its own at every render. */
  ratio: { readonly current: number };
  children: ReactNode;
}

export function SceneCanvas({ label, ratio, children }: SceneCanvasProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const root = useRef<ReconcilerRoot<HTMLCanvasElement> | null>(null);
  const size = useParentSize(canvas);
  const [failure, setFailure] = useState<{ error: unknown } | null>(null);
  // Insertion effects are not replayed by StrictMode; a root that was unmounted cannot have its canvas again.
  useInsertionEffect(
    () => () => {
      root.current?.unmount();
      root.current = null;
    },
    [],
  );
  useEffect(() => {
    if (!size || !canvas.current) return;
    const first = root.current === null;
    root.current ??= createRoot(canvas.current);
    const current = root.current;
    const beginning = {
      gl: { alpha: true, antialias: true, stencil: false, powerPreference: 'high-performance' as const },
      camera: { fov: FIELD_OF_VIEW_DEG, near: 1, far: 120 },
    };
    current
      .configure({ flat: true, frameloop: 'demand', size, dpr: ratio.current, ...(first ? beginning : {}) })
      .then(() => {
        if (root.current === current)
          current.render(<Catch onError={(error) => setFailure({ error })}>{children}</Catch>);
      })
      .catch((error: unknown) => setFailure({ error }));
  }, [size, ratio, children]);
  if (failure) throw failure.error;
  return (
    <canvas ref={canvas} role="img" aria-label={label} style={{ display: 'block', width: '100%', height: '100%' }} />
  );
}
