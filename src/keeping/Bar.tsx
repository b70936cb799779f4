import { type ReactNode, useEffect, useState } from 'react';
import { save } from '../app/actions.ts';
import { Icon } from '../app/Icon.tsx';
import { useBench, useDocument, useKeeping } from '../app/workbench.ts';
import { isEdited } from '../store/document.ts';
import { troubleWords } from './trouble.ts';

interface MessageProps {
  readonly title: string;
  readonly says: string;
  readonly children: ReactNode;
}

function Message({ title, says, children }: MessageProps) {
  return (
    <section className="keeping-bar" role="alert" aria-label={title}>
      <Icon name="alert" />
      <div>
        <h2>{title}</h2>
        <p className="soft">{says}</p>
      </div>
      <div className="group">{children}</div>
    </section>
  );
}

/** The document belongs to another tab: what can be done about that. */
function Elsewhere({ taken }: { readonly taken: boolean }) {
  const bench = useBench();
  const refusals = useDocument((state) => state.refusals);
  const reading = useKeeping((state) => state.reading);
  const [seen, setSeen] = useState(refusals);
  const [taking, setTaking] = useState(false);
  if (reading && refusals === seen) return null;
  const name = bench.documents.getState().name;
  const refused = refusals > 0 ? 'Nothing was changed. ' : '';
  return (
    <Message
      title={taken ? `${name} was taken over by another tab` : `${name} is open in another tab`}
      says={`${refused}So that neither overwrites the other, it can be changed in one of them at a time.`}
    >
      <button
        type="button"
        className="button strong"
        onClick={() => void bench.keeper().then((keeper) => keeper.copy())}
      >
        Open a copy
      </button>
      <button
        type="button"
        className="button"
        disabled={taking}
        onClick={() => {
          setTaking(true);
          void bench
            .keeper()
            .then((keeper) => keeper.takeOver())
            .finally(() => setTaking(false));
        }}
      >
        {taking ? 'Taking over …' : 'Take over'}
      </button>
      <button
        type="button"
        className="button"
        onClick={() => {
          setSeen(refusals);
          bench.keeping.setState({ reading: true });
        }}
      >
        Only read
      </button>
    </Message>
  );
}

/** The document could not be kept: why, and what to do. */
function NotKept() {
  const bench = useBench();
  const trouble = useKeeping((state) => state.trouble);
  const edited = useDocument(isEdited);
  const [hidden, hide] = useState<typeof trouble>();
  if (trouble === undefined || !edited || hidden === trouble) return null;
  const { title, says } = troubleWords(trouble);
  return (
    <Message title={title} says={says}>
      <button type="button" className="button strong" onClick={() => void save(bench)}>
        Save a file
      </button>
      {trouble.kind === 'full' ? (
        <button
          type="button"
          className="button"
          onClick={() => bench.keeping.setState({ view: 'documents' })}
        >
          Documents
        </button>
      ) : null}
      {trouble.kind === 'newer' ? (
        <button type="button" className="button" onClick={() => location.reload()}>
          Reload
        </button>
      ) : null}
      <button
        type="button"
        className="button icon-only bare"
        aria-label="Close this message"
        onClick={() => hide(trouble)}
      >
        <Icon name="cross" />
      </button>
    </Message>
  );
}

/** What stands between the user and a document that is kept, until it is dealt with. */
export function Bar() {
  const elsewhere = useKeeping((state) => state.elsewhere);
  const opening = useDocument((state) => state.opening);
  const { keeping } = useBench();
  // A change that was refused brings the message back.
  const refusals = useDocument((state) => state.refusals);
  useEffect(() => {
    if (refusals > 0) keeping.setState({ reading: false });
  }, [refusals, keeping]);
  return elsewhere === undefined ? <NotKept /> : <Elsewhere key={opening} taken={elsewhere === 'taken'} />;
}
