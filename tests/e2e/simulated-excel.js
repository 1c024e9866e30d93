// What Excel itself puts into an add-in's page, as far as custom functions need it: a classic script that stands before
// all others. It sends calls as Excel does and keeps what comes back. The layout of the messages is an internal of the
// Office.js version that package.json pins.
(() => {
  const INVOKE = 1000;
  const answers = new Map();
  const waiting = new Map();
  let last = 0;

  function keep([id, ok, value]) {
    const answer = { ok, value, at: Date.now() };
    answers.set(id, answer);
    waiting.get(id)?.(answer);
    waiting.delete(id);
  }

  const bridge = {
    sendMessageToHost(text) {
      const { id, type, message } = JSON.parse(text);
      if (type !== 1) return;
      const body = typeof message.body === "string" ? JSON.parse(message.body) : message.body;
      for (const { Name, ArgumentInfo } of body.Actions ?? [])
        if (Name === "SetInvocationArrayResults") ArgumentInfo.Arguments[0].forEach(keep);
      // Without a reply it would send the same results again.
      const reply = {
        id,
        type: 2,
        flags: 0,
        message: { statusCode: 200, headers: {}, body: { Results: [] } },
      };
      setTimeout(() => bridge.onMessageFromHost(JSON.stringify(reply)), 0);
    },
  };
  globalThis._richApiNativeBridge = bridge;

  globalThis.simulatedExcel = {
    /** Sends all calls in one message, as a recalculation does. Gives the numbers of the calls. */
    send(calls, flags) {
      const entries = calls.map(([name, args]) => {
        const id = ++last;
        return [1, INVOKE, "", [id, name, args, null, flags], id];
      });
      bridge.onMessageFromHost(JSON.stringify({ type: 3, message: { entries } }));
      return entries.map((entry) => entry[4]);
    },
    /** Of calls by their numbers: what came back so far, or undefined. */
    soFar: (ids) => ids.map((id) => answers.get(id)),
    /** Of calls by their numbers: what comes back, in the end. */
    answers: (ids) =>
      Promise.all(ids.map((id) => answers.get(id) ?? new Promise((done) => waiting.set(id, done)))),
  };
})();
