using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Sqlite;

public sealed class CorrectionTests() : CorrectionBehaviour(new TemporarySqliteStore());
