// Allows pixi under a strict content security policy; it has to come before pixi itself.
import 'pixi.js/unsafe-eval';
import { Application } from 'pixi.js';
import { faces } from '../charts/palette.ts';
import { Scene } from './scene.ts';

/** Pixels per CSS pixel at most: more costs filling and shows nothing. */
const MOST_RESOLUTION = 2;

/** A pixi application with the scene in it; draws only when told to. */
export interface Stage {
  readonly scene: Scene;
  /** 'webgl' or 'canvas', for diagnostics. */
  readonly renderer: string;
  resize(width: number, height: number): void;
  background(color: number): void;
  render(): void;
  destroy(): void;
}

/** Names by which drivers say that they draw in software. */
const SOFTWARE = /swiftshader|llvmpipe|softpipe|software|basic render/i;

/** Whether WebGL is drawn by a graphics card, as far as the browser tells. */
function hasGraphicsCard(): boolean {
  const probe = document.createElement('canvas').getContext('webgl2');
  if (probe === null) return false;
  const info = probe.getExtension('WEBGL_debug_renderer_info');
  const name = info === null ? '' : String(probe.getParameter(info.UNMASKED_RENDERER_WEBGL));
  probe.getExtension('WEBGL_lose_context')?.loseContext();
  return !SOFTWARE.test(name);
}

/**
 * Renderers in the order in which they are tried. WebGL without a graphics card fills pixels several times slower than
 * the plain canvas, so it comes second there. `?renderer=canvas` and `?renderer=webgl` ask for one of them.
 */
function renderersFor(search: string): ('webgl' | 'canvas')[] {
  const asked = new URLSearchParams(search).get('renderer');
  if (asked === 'canvas' || asked === 'webgl') return [asked];
  return hasGraphicsCard() ? ['webgl', 'canvas'] : ['canvas', 'webgl'];
}

/** Waits for the faces that the picture writes in, but not for long: it can be drawn without them. */
async function facesReady(): Promise<void> {
  const wanted = [`12px ${faces.mono}`, `600 12px ${faces.mono}`, `12px ${faces.sans}`].map((f) =>
    document.fonts.load(f),
  );
  await Promise.race([Promise.allSettled(wanted), new Promise((go) => setTimeout(go, 600))]);
}

/**
 * Opens a stage in an element. `redraw` is called when the graphics card has dropped the picture.
 * @throws when neither renderer can be started
 */
export async function openStage(host: HTMLElement, search: string, redraw: () => void): Promise<Stage> {
  await facesReady();
  const app = new Application();
  const resolution = Math.min(MOST_RESOLUTION, window.devicePixelRatio || 1);
  await app.init({
    preference: renderersFor(search),
    autoStart: false,
    sharedTicker: false,
    antialias: true,
    autoDensity: true,
    resolution,
    width: Math.max(1, host.clientWidth),
    height: Math.max(1, host.clientHeight),
    eventMode: 'none',
    // Pointer, accessibility and DOM parts of pixi: the picture uses its own.
    skipExtensionImports: true,
  });
  const scene = new Scene(resolution);
  app.stage.addChild(scene.root);
  app.canvas.addEventListener('webglcontextlost', (event) => event.preventDefault());
  app.canvas.addEventListener('webglcontextrestored', redraw);
  app.canvas.setAttribute('aria-hidden', 'true');
  host.append(app.canvas);
  return {
    scene,
    renderer: app.renderer.name,
    resize: (width, height) => app.renderer.resize(Math.max(1, width), Math.max(1, height)),
    background: (color) => app.renderer.background.color.setValue(color),
    render: () => app.render(),
    destroy() {
      scene.destroy();
      app.destroy({ removeView: true }, { children: true });
    },
  };
}
