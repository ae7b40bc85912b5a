/** Lost and restored contexts: drawing pauses (never the engine), comes back by itself, and the page is told. */
import { useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import { noteContextLoss } from '../state/store.ts';

export function ContextWatch({ onLost }: { onLost: (lost: boolean) => void }) {
  const gl = useThree((s) => s.gl);
  const invalidate = useThree((s) => s.invalidate);
  const setFrameloop = useThree((s) => s.setFrameloop);
  useEffect(() => {
    const canvas = gl.domElement;
    const lost = (event: Event) => {
      event.preventDefault();
      canvas.dataset.context = 'lost';
      setFrameloop('never');
      onLost(true);
      noteContextLoss(performance.now());
    };
    const restored = () => {
      canvas.dataset.context = 'alive';
      setFrameloop('demand');
      onLost(false);
      invalidate();
    };
    canvas.addEventListener('webglcontextlost', lost);
    canvas.addEventListener('webglcontextrestored', restored);
    return () => {
      canvas.removeEventListener('webglcontextlost', lost);
      canvas.removeEventListener('webglcontextrestored', restored);
    };
  }, [gl, invalidate, setFrameloop, onLost]);
  return null;
}
