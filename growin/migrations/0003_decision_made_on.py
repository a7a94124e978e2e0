import datetime

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('growin', '0002_programme_difference'),
    ]

    operations = [
        migrations.AddField(
            model_name='decision',
            name='made_on',
            field=models.DateField(default=datetime.date(2026, 1, 1)),
            preserve_default=False,
        ),
    ]
