using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Sqlite;

public sealed class RecordedTests() : RecordedBehaviour(new TemporarySqliteStore());
