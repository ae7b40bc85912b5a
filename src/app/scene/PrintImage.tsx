/** Browsers print a WebGL canvas blank: just before printing, the picture is drawn once more and put into an image. */
import { useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import styles from './scene.module.css';

export function PrintImage() {
  const gl = useThree((s) => s.gl);
  const scene = useThree((s) => s.scene);
  const camera = useThree((s) => s.camera);
  useEffect(() => {
    const image = document.createElement('img');
    image.className = styles.print ?? '';
    image.alt = '';
    const before = () => {
      gl.render(scene, camera);
      image.src = gl.domElement.toDataURL('image/png');
      gl.domElement.parentElement?.append(image);
    };
    const after = () => image.remove();
    window.addEventListener('beforeprint', before);
    window.addEventListener('afterprint', after);
    return () => {
      window.removeEventListener('beforeprint', before);
      window.removeEventListener('afterprint', after);
      image.remove();
    };
  }, [gl, scene, camera]);
  return null;
}
