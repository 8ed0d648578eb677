using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Sqlite;

public sealed class ListTests() : ListBehaviour(new TemporarySqliteStore());
