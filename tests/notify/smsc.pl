# An SMPP gateway by Net::SMPP, an implementation independent of the one under test. Serves one connection: binds whoever
# knows the password, tells what it was sent in JSON lines, answers the first text with "throttled" and the next with
# success, a receipt and an incoming text. Ends with the connection.

use strict;
use warnings;
use Net::SMPP;

$| = 1;
my $listen = Net::SMPP->new_listen('127.0.0.1', port => 0, smpp_version => 0x34) or die "cannot listen: $!";
print '{"port":', $listen->sockport, "}\n";
my $peer = $listen->accept or die "nobody came: $!";
$peer->set_version(0x34);

my $texts = 0;
while (my $pdu = $peer->read_pdu()) {
    my $cmd = $pdu->{cmd};
    if ($cmd == 0x00000009) {
        my $known = $pdu->{system_id} eq 'pitward' && $pdu->{password} eq 'geheim';
        print '{"bind":"', $pdu->{system_id}, '","version":', $pdu->{interface_version} // 0, "}\n";
        $peer->bind_transceiver_resp(system_id => 'perl', seq => $pdu->{seq}, status => $known ? 0 : 0x0e);
    }
    elsif ($cmd == 0x00000004) {
        $texts++;
        printf qq({"to":"%s","from":"%s","coding":%d,"registered":%d,"validity":"%s","hex":"%s"}\n),
            $pdu->{destination_addr}, $pdu->{source_addr}, $pdu->{data_coding}, $pdu->{registered_delivery},
            $pdu->{validity_period}, unpack('H*', $pdu->{short_message});
        if ($texts == 1) {
            $peer->submit_sm_resp(message_id => '', seq => $pdu->{seq}, status => 0x58);
            next;
        }
        $peer->submit_sm_resp(message_id => 'perl-2', seq => $pdu->{seq});
        $peer->deliver_sm(source_addr => '15550100', destination_addr => '15550199', source_addr_ton => 1,
            esm_class => 0x04, async => 1, seq => 9001,
            short_message => 'id:perl-2 sub:001 dlvrd:001 submit date:2603021342 done date:2603021343 stat:DELIVRD err:000 text:');
        $peer->deliver_sm(source_addr => '15550100', destination_addr => '15550199', source_addr_ton => 1,
            async => 1, seq => 9002, short_message => '1');
    }
    elsif ($cmd == 0x80000005) {
        print '{"acknowledged":', $pdu->{seq}, ',"status":', $pdu->{status}, "}\n";
    }
    elsif ($cmd == 0x00000015) {
        $peer->enquire_link_resp(seq => $pdu->{seq});
    }
    elsif ($cmd == 0x00000006) {
        $peer->unbind_resp(seq => $pdu->{seq});
        print qq({"unbind":true}\n);
        last;
    }
}
