// Verifies a record by the form that DEVELOPERS.md tells, with npm jose (RFC 7515, 7638, 8037, 9864) and Node's own
// SHA-256; then alters what was signed, in each signature, and expects a refusal. Argument: the record file.
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { calculateJwkThumbprint, errors, flattenedVerify, importJWK } from 'jose';
import { strFromU8, unzipSync } from 'fflate';

const files = unzipSync(readFileSync(process.argv[2]));
const record = JSON.parse(strFromU8(files['record.json']));
const faults = [];
const expect = (holds, what) => holds || faults.push(what);
const text = (base64url) => Buffer.from(base64url, 'base64url').toString();
const base64url = (string) => Buffer.from(string).toString('base64url');

const entries = [];
for (let from = 0, bytes = Buffer.from(files['entries.jsonl']); from < bytes.length;) {
  const end = bytes.indexOf(10, from);
  if (end < 0) {
    faults.push('no line feed behind the last entry');
    break;
  }
  entries.push(bytes.subarray(from, end));
  from = end + 1;
}
let link = Buffer.alloc(32);
entries.forEach((entry, number) => {
  link = createHash('sha256').update(link).update(entry).digest();
  expect(link.toString('hex') === record.chain[number], `entry ${number}: the chain breaks`);
});
expect(entries.length === record.chain.length, 'not one link for each entry');
for (const [name, bytes] of Object.entries(files))
  if (name.startsWith('pictures/'))
    expect(createHash('sha256').update(bytes).digest('hex') === name.slice(9), `${name} is another picture`);

const keys = new Map();
for (const jwk of record.keys) keys.set(await calculateJwkThumbprint(jwk), await importJWK(jwk, 'Ed25519'));

async function isSigned(jws) {
  const key = keys.get(JSON.parse(text(jws.protected)).kid);
  try {
    await flattenedVerify(jws, key, { algorithms: ['Ed25519'] });
    return true;
  } catch (error) {
    if (error instanceof errors.JWSSignatureVerificationFailed) return false;
    throw error;
  }
}

const offices = new Map();
for (const jwk of record.offices ?? []) offices.set(await calculateJwkThumbprint(jwk), await importJWK(jwk, 'Ed25519'));
const owners = new Map();
for (const { payload, ...one } of record.certificates ?? []) {
  const { kid, typ } = JSON.parse(text(one.protected));
  const said = JSON.parse(text(payload));
  await flattenedVerify({ payload, ...one }, offices.get(kid), { algorithms: ['Ed25519'] });
  expect(typ === 'coldarc-enrolment', 'no certificate of enrolment');
  const thumbprint = await calculateJwkThumbprint(said.key);
  owners.set(thumbprint, [...(owners.get(thumbprint) ?? []), said]);
}

const outOfUse = new Map();
for (const jws of record.retirements ?? []) {
  const { kid, typ } = JSON.parse(text(jws.protected));
  const said = JSON.parse(text(jws.payload));
  await flattenedVerify(jws, offices.get(kid), { algorithms: ['Ed25519'] });
  expect(typ === 'coldarc-retirement', 'no retirement of a key');
  const thumbprint = await calculateJwkThumbprint(said.key);
  const before = outOfUse.get(thumbprint);
  if (!(before < said.since)) outOfUse.set(thumbprint, said.since); // of several the earliest day counts
}

let signatures = 0;
let refused = 0;
for (const { payload, signatures: list } of record.heads) {
  const said = JSON.parse(text(payload));
  expect(said.visit === record.visit && said.sha256 === record.chain[said.entry], 'another head');
  for (const one of list) {
    expect(await isSigned({ payload, ...one }), 'a signature does not verify');
    ++signatures;
    const header = JSON.parse(text(one.protected));
    const day = header.at.slice(0, 10);
    const vouched = owners.get(header.kid) ?? [];
    expect(!(outOfUse.get(header.kid) <= day), 'the key was out of use by then');
    expect(!vouched.length || vouched.some((it) => it.person === header.person && it.from <= day && day <= it.until),
      'the key is another person\'s, or not on that day');
    const altered = [
      { payload: base64url(JSON.stringify({ ...said, entry: said.entry + 1 })), ...one },
      { payload, ...one, protected: base64url(JSON.stringify({ ...header, at: '2020-01-01T00:00:00.000Z' })) },
      { payload, ...one, protected: base64url(JSON.stringify({ ...header, person: 'somebody' })) },
      { payload, ...one, signature: (one.signature[0] === 'A' ? 'B' : 'A') + one.signature.slice(1) },
    ];
    for (const jws of altered) {
      expect(!(await isSigned(jws)), 'an altered one verifies');
      ++refused;
    }
  }
}
expect(signatures > 0, 'nothing is signed');

let reviews = 0;
for (const jws of record.reviews ?? []) {
  const header = JSON.parse(text(jws.protected));
  const said = JSON.parse(text(jws.payload));
  expect(header.typ === 'coldarc-review' && ['accepted', 'sent-back'].includes(said.verdict), 'no review');
  expect(said.visit === record.visit && said.sha256 === record.chain[said.entry], 'a review of something else');
  expect(await isSigned(jws), 'a review does not verify');
  ++reviews;
  const day = said.at.slice(0, 10);
  const vouched = owners.get(header.kid) ?? [];
  expect(!(outOfUse.get(header.kid) <= day), 'the reviewer\'s key was out of use by then');
  expect(!vouched.length || vouched.some((it) => it.person === said.by && it.role === 'supervisor' && it.from <= day && day <= it.until),
    'the reviewer is no supervisor, somebody else, or not on that day');
  for (const altered of [
    { ...jws, payload: base64url(JSON.stringify({ ...said, verdict: said.verdict === 'accepted' ? 'sent-back' : 'accepted' })) },
    { ...jws, payload: base64url(JSON.stringify({ ...said, entry: said.entry - 1 })) },
    { ...jws, payload: base64url(JSON.stringify({ ...said, by: 'somebody' })) },
    { ...jws, payload: base64url(JSON.stringify({ ...said, text: said.text + '.' })) },
    { ...jws, signature: (jws.signature[0] === 'A' ? 'B' : 'A') + jws.signature.slice(1) },
  ]) {
    expect(!(await isSigned(altered)), 'an altered review verifies');
    ++refused;
  }
}
for (const fault of faults) console.error(fault);
console.log(`npm jose: ${entries.length} entries, ${signatures} signatures, ${reviews} reviews and ${record.certificates?.length ?? 0} certificates verified, ${refused} altered ones refused`);
process.exit(faults.length ? 1 : 0);
