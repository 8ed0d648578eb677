using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Postgres;

public sealed class AppendTests(PostgresCluster cluster) : AppendBehaviour(new TemporaryPostgresStore(cluster));
