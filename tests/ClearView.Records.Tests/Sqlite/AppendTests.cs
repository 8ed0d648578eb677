using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Sqlite;

public sealed class AppendTests() : AppendBehaviour(new TemporarySqliteStore());
