// Loaded before anything else into every thread and child process of the tests (vitest.config.ts): what asks for any host but this
// machine is noted in the file FAIRLEAD_ASKED, one line each, and fails the run at its end. It is let go on: what it comes to is its own.
const dgram = require('node:dgram');
const dns = require('node:dns');
const { appendFileSync } = require('node:fs');
const { syncBuiltinESMExports } = require('node:module');
const net = require('node:net');
const { networkInterfaces } = require('node:os');

const ownAddresses = () =>
  Object.values(networkInterfaces())
    .flat()
    .map(({ address }) => address);
const isOwn = (host) =>
  /^(?:localhost|::1|(?:::ffff:)?127(?:\.\d{1,3}){3}|0\.0\.0\.0|::)$/iu.test(host) || ownAddresses().includes(host);

function note(host, how) {
  const file = process.env.FAIRLEAD_ASKED;
  if (file !== undefined && typeof host === 'string' && !isOwn(host)) appendFileSync(file, `${how} ${host}\n`);
}

const { connect } = net.Socket.prototype;
net.Socket.prototype.connect = function noted(...args) {
  // Node hands its own calls over as one list of [options, told].
  const [first, second] = Array.isArray(args[0]) ? args[0] : args;
  const isPipe = typeof first === 'string' && !/^\d+$/u.test(first);
  if (first !== null && typeof first === 'object') {
    if (first.path === undefined || first.path === null) note(first.host ?? 'localhost', 'connect');
  } else if (!isPipe) note(typeof second === 'string' ? second : 'localhost', 'connect');
  return connect.apply(this, args);
};

const { send } = dgram.Socket.prototype;
dgram.Socket.prototype.send = function noted(...args) {
  note(
    args.slice(1).find((arg) => typeof arg === 'string'),
    'send',
  );
  return send.apply(this, args);
};

for (const asker of [dns, dns.promises, dns.Resolver.prototype, dns.promises.Resolver.prototype])
  for (const name of Object.getOwnPropertyNames(asker).filter((word) => /^(?:lookup|resolve|reverse)/u.test(word))) {
    const own = asker[name];
    if (typeof own !== 'function') continue;
    asker[name] = function noted(...args) {
      note(args[0], name);
      return own.apply(this, args);
    };
  }
syncBuiltinESMExports();
