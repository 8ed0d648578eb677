using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Postgres;

public sealed class CorrectionTests(PostgresCluster cluster) : CorrectionBehaviour(new TemporaryPostgresStore(cluster));
