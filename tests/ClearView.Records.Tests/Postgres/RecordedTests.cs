using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Postgres;

public sealed class RecordedTests(PostgresCluster cluster) : RecordedBehaviour(new TemporaryPostgresStore(cluster));
