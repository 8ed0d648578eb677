using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Postgres;

public sealed class VersionedTests(PostgresCluster cluster) : VersionedBehaviour(new TemporaryPostgresStore(cluster));
