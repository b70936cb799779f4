import { lazy, Suspense, useEffect, useRef } from 'react';
import { SceneView } from '../canvas/SceneView.tsx';
import type { Look } from '../solved.ts';
import { fitGround, fitVehicle, zoom } from './camera.ts';
import { Icon, type IconName } from './Icon.tsx';
import { usePivotMap } from './onVehicle.ts';
import { useBench, useDesk, useSettings, useShown } from './workbench.ts';

/** Figures of things under the pointer: loaded once there are any. */
const Reading = lazy(async () => ({ default: (await import('../reading/Reading.tsx')).Reading }));

/** Only some modes have something to drag: loaded with the first of them. */
const Hands = lazy(async () => ({ default: (await import('./Hands.tsx')).Hands }));

interface LookButtonProps {
  readonly icon: IconName;
  readonly says: string;
  readonly keys: string;
  readonly pressed?: boolean;
  readonly onPress: () => void;
}

function LookButton({ icon, says, keys, pressed, onPress }: LookButtonProps) {
  return (
    <button
      type="button"
      className="button icon-only bare"
      aria-label={says}
      aria-pressed={pressed}
      title={`${says} (${keys})`}
      onClick={onPress}
    >
      <Icon name={icon} />
    </button>
  );
}

/** What to look at: a small row over the corner of the picture. */
function LookBar() {
  const bench = useBench();
  const follow = useSettings((state) => state.follow);
  return (
    <div className="look-bar" role="toolbar" aria-label="What to look at">
      <LookButton icon="wholeGround" says="Whole ground" keys="G" onPress={() => fitGround(bench)} />
      <LookButton icon="vehicle" says="Vehicle" keys="V" onPress={() => fitVehicle(bench)} />
      <LookButton
        icon="follow"
        says="Follow the vehicle"
        keys="F"
        pressed={follow}
        onPress={() => bench.settings.setState({ follow: !follow })}
      />
      <LookButton icon="minus" says="Farther" keys="−" onPress={() => zoom(bench, 'farther')} />
      <LookButton icon="plus" says="Closer" keys="+" onPress={() => zoom(bench, 'closer')} />
    </div>
  );
}

/** A standing vehicle is looked at closely; leaving it, the picture is as it was. */
function useCloseLook(): void {
  const bench = useBench();
  const mode = useDesk((state) => state.mode);
  const ready = useDesk((state) => state.solved !== undefined);
  useEffect(() => {
    if (mode !== 'stand' || !ready) return undefined;
    const { from, to } = bench.viewport.window;
    // The picture takes the place of bands and strips first.
    const wait = requestAnimationFrame(() => fitVehicle(bench));
    return () => {
      cancelAnimationFrame(wait);
      bench.viewport.show({ from, to });
    };
  }, [bench, mode, ready]);
}

/** The picture with its few controls. */
export function Scene({ look }: { readonly look: Look }) {
  const { playhead, viewport, stage, settings, sight } = useBench();
  const solved = useShown();
  const before = useDesk((state) => state.before ?? null);
  const stale = useDesk((state) => state.stale);
  const follow = useSettings((state) => state.follow);
  const forces = useSettings((state) => state.forces);
  const mode = useDesk((state) => state.mode);
  const map = usePivotMap();
  const field = useRef<HTMLElement | null>(null);
  const has = useDesk((state) => state.solved !== undefined);
  useCloseLook();
  return (
    <section
      className="picture"
      aria-label="Side view"
      data-stale={stale}
      ref={(element) => {
        stage.element = element;
        field.current = element;
      }}
    >
      <SceneView
        solved={solved}
        before={before}
        playhead={playhead}
        viewport={viewport}
        look={look}
        follow={follow}
        onFollow={(on) => settings.setState({ follow: on })}
        sight={sight}
        map={map}
        forces={forces}
      />
      <Suspense>{mode === 'drive' ? null : <Hands solved={solved} look={look} />}</Suspense>
      <Suspense>{has ? <Reading solved={solved} sight={sight} field={field} look={look} /> : null}</Suspense>
      <LookBar />
    </section>
  );
}
