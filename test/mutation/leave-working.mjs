/** Leaves the working alone: what goes into `trace.add(...)` is replayed by the tests of the catalogue, step by step. */
const working = {
  shouldIgnore(path) {
    if (!path.isCallExpression() && !path.isOptionalCallExpression()) return undefined;
    const { callee } = path.node;
    const member = callee.type === 'MemberExpression' || callee.type === 'OptionalMemberExpression';
    return member && callee.object.name === 'trace' && callee.property.name === 'add' ? 'recorded working' : undefined;
  },
};

export const strykerPlugins = [{ kind: 'Ignore', name: 'working', value: working }];
