import { deflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import corrie from '../../../scenarios/corrie-6x6.json';
import { fragmentOf, isLink, linkedIn, MOST_LINK } from '../../../src/keeping/link.ts';

const packed = (text: string | Buffer): string => `#scenario=${deflateRawSync(text).toString('base64url')}`;

describe('a link', () => {
  it('carries a whole scenario, well within its limit, and gives it back the same', async () => {
    const { fragment, fits } = await fragmentOf('corrie-6x6.json', corrie);
    expect(fits).toBe(true);
    expect(fragment).toMatch(/^#scenario=[\w-]+$/);
    expect(isLink(fragment)).toBe(true);
    const linked = await linkedIn(fragment);
    expect(linked).toMatchObject({ ok: true, name: 'corrie-6x6.json' });
    expect(linked.ok && JSON.parse(linked.text)).toEqual(corrie);
  });

  it('is packed as the standards say: zlib unpacks it, and what zlib packs is read', async () => {
    const linked = await linkedIn(packed('{"name":"a.json","document":{"title":"×"}}'));
    expect(linked).toEqual({ ok: true, name: 'a.json', text: '{\n  "title": "×"\n}\n' });
  });

  it('says when it is longer than letters and chats let through', async () => {
    const notes = Array.from({ length: MOST_LINK }, (_, i) => Math.sin(i).toString(36)).join('');
    expect((await fragmentOf('a.json', { notes })).fits).toBe(false);
  });

  it.each([
    ['nothing', '#scenario='],
    ['letters that are none', '#scenario=%%%'],
    ['noise', '#scenario=AAAAAAAAAAAA'],
    ['no JSON', packed('not JSON')],
    ['no document', packed('{"name":"a"}')],
    ['null', packed('null')],
    ['bytes that are no text', packed(Buffer.from([0xff, 0xfe, 0x22]))],
  ])('that holds %s is told as broken', async (_name, fragment) => {
    const linked = await linkedIn(fragment);
    expect(linked.ok ? '' : linked.says).toMatch(/broken/);
  });

  it('that was cut off on its way is told as broken', async () => {
    const { fragment } = await fragmentOf('corrie-6x6.json', corrie);
    const linked = await linkedIn(fragment.slice(0, fragment.length / 2));
    expect(linked.ok ? '' : linked.says).toMatch(/part of it is missing/);
  });

  it('that would unpack to more than a scenario may have is left packed', async () => {
    const linked = await linkedIn(packed(Buffer.alloc(200_000_000, ' ')));
    expect(linked.ok ? '' : linked.says).toMatch(/more than 5 MB/);
  });

  it.each([
    ['../../etc/passwd', 'etc passwd.json'],
    ['<img src=x>.json', 'img src x.json'],
    ['', 'linked.json'],
    [7, 'linked.json'],
  ])('names its file harmlessly: %j', async (name, expected) => {
    const linked = await linkedIn(packed(JSON.stringify({ name, document: {} })));
    expect(linked.ok && linked.name).toBe(expected);
  });
});
