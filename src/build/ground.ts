import { useEffect } from 'react';
import { useBench, useNotice } from '../app/workbench.ts';

/** Whether the ground is being changed instead of the vehicle. A picture to draw over belongs to the vehicle. */
export const useGroundOn = (): boolean =>
  useNotice(({ ground, picture }) => ground !== undefined && !picture);

/** The ground is changed as soon as a piece of it is selected, the vehicle as soon as a part of that is. */
export function useGroundBySelection(): void {
  const { notices, selection } = useBench();
  useEffect(
    () =>
      selection.subscribe(({ entry }, last) => {
        if (entry === undefined || entry === last.entry) return;
        const { ground, picture } = notices.getState();
        if (entry[0] === 'vehicle' && ground !== undefined) notices.setState({ ground: undefined });
        if (entry[0] === 'ground' && (ground === undefined || picture))
          notices.setState({ ground: ground ?? { tool: 'points' }, picture: false });
      }),
    [notices, selection],
  );
}
